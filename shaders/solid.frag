in vec3 vLight;
in vec3 vKey;
in vec3 vPlace;
in vec3 vNormal;

uniform float uOpacity;

out vec4 oColour;

#ifdef CUTS
uniform vec3 uFaceColour;  // sRGB
#endif

void main() {
#ifdef CUTS
    if (cutAway(vPlace)) discard;
    if (!gl_FrontFacing) {
        oColour = vec4(developed(cutFace(vPlace, linear(uFaceColour))), uOpacity);
        return;
    }
#endif
#ifdef SHADOWS
    oColour = vec4(developed(vLight * (0.30 + 0.70 * open()) + vKey * lit(vPlace, vNormal)), uOpacity);
#else
    oColour = vec4(vLight, uOpacity);
#endif
}
