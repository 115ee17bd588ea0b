in vec3 vLight;
in vec3 vKey;
in vec3 vPlace;
in vec3 vNormal;

uniform float uOpacity;

out vec4 oColour;

void main() {
#ifdef SHADOWS
    oColour = vec4(developed(vLight * (0.30 + 0.70 * open()) + vKey * lit(vPlace, vNormal)), uOpacity);
#else
    oColour = vec4(vLight, uOpacity);
#endif
}
