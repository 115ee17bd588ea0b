// Everything that is not turned on the spindle: painted, ground or black-oxide bodies.
in vec3 vPlace;
in vec3 vNormal;
in vec4 vColour;  // a: gloss, 0 paint, 1 polished metal
in float vAlong;  // 0…1: how far the place is shut off from the light

uniform vec4 uTint;     // sRGB and how much of it: edges in the colour of their station
uniform float uOpacity;

out vec4 oColour;

void main() {
    vec3 n = normalize(vNormal);
    vec3 v = normalize(uEye - vPlace);
    vec3 base = linear(mix(vColour.rgb, uTint.rgb, uTint.a));
    float gloss = vColour.a;
    vec3 c = base * (hemisphere(n) * mix(0.95, 0.55, gloss) + kKeyColour * max(dot(n, uKey), 0.0) * mix(0.85, 0.45, gloss) +
                     kFillColour * max(dot(n, uFill), 0.0) * 0.20);
    c *= 1.0 - vAlong;
    vec3 tint = mix(vec3(0.06), base, gloss);
    c += tint * room(reflect(-v, n)) * mix(0.35, 0.75, gloss) * (1.0 - 0.7 * vAlong);
    float facing = 1.0 - max(dot(n, v), 0.0);
    float f2 = facing * facing;
    c += kRimColour * f2 * f2 * (0.10 + 0.25 * max(dot(n, uRim), 0.0)) * uAmbient;
    oColour = vec4(developed(c), uOpacity);
}
