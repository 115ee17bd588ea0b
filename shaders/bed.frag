in vec4 vColour;
in vec3 vPlace;

uniform float uCast;  // how dark what stands before the bed makes it

out vec4 oColour;

void main() {
    vec3 c = vColour.rgb * (1.0 - uCast * (1.0 - lit(vPlace, vec3(0.0, 0.0, 1.0))));
    oColour = vec4(mix(backdrop(), c, vColour.a), 1.0);
}
