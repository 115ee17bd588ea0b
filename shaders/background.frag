in vec2 vPlace;

uniform vec3 uTop;     // sRGB
uniform vec3 uBottom;
uniform vec3 uMiddle;  // a soft light behind the work

out vec4 oColour;

void main() {
    vec2 p = vPlace - vec2(0.5, 0.56);
    float glow = clamp(1.0 - 2.1 * dot(p, p), 0.0, 1.0);
    vec3 c = mix(uBottom, uTop, vPlace.y);
    oColour = vec4(mix(c, uMiddle, 0.75 * glow * glow), 1.0);
}
