// The face of a cutaway: flat colour under thin hatching at 45 degrees and of even spacing, as ISO 128-50:2001 draws a section
// (ISO 128-3:2020 has taken its place). The spacing is the same number of pixels at any zoom, and the lines stay with the metal.
in vec3 vPlace;
in vec2 vHatch;
in vec3 vNormal;
in vec4 vColour;

uniform float uSpacing;  // of the hatching, mm square to the lines
uniform float uLine;     // share of the spacing that a line takes
uniform float uSlope;    // +1 or -1: which way the hatching leans
uniform float uOpacity;

out vec4 oColour;

void main() {
    vec3 n = normalize(vNormal);
    vec3 v = normalize(uEye - vPlace);
    vec3 base = linear(vColour.rgb);
    float x = (vHatch.x + uSlope * vHatch.y) * 0.70710678 / uSpacing;
    float w = fwidth(x);
    float line = abs(fract(x) - 0.5);
    float hatch = clamp((line - 0.5 + 0.5 * uLine) / max(w, 1e-4) + 0.5, 0.0, 1.0) * clamp(1.6 - 2.0 * w, 0.0, 1.0);
    // Paper rather than metal: no shadow falls on it.
    vec3 c = base * (0.62 + 0.26 * max(dot(n, uKey), 0.0) + 0.12 * max(dot(n, v), 0.0)) * (0.55 + 0.45 * uAmbient);
    c *= 1.0 - 0.42 * hatch;
    oColour = vec4(developed(c), uOpacity);
}
