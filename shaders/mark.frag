// A circle in quarters, dark and light in turn, with a hair cross through it.
in vec2 vPixel;

uniform float uRadius;
uniform vec4 uDark;
uniform vec4 uLight;

out vec4 oColour;

void main() {
    float r = length(vPixel);
    float cover = clamp(uRadius + 0.5 - r, 0.0, 1.0);
    float quarter = clamp(0.5 + vPixel.x * vPixel.y * 0.5, 0.0, 1.0);
    float ring = clamp(r - uRadius + 2.0, 0.0, 1.0);
    vec4 c = mix(mix(uLight, uDark, quarter), uDark, ring);
    oColour = vec4(c.rgb, c.a * cover);
}
