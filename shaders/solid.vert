// Everything that is not turned on the spindle: painted, ground or black-oxide bodies. Their faces are flat or nearly so,
// and the light on them changes slowly: it is worked out at the corners, which makes them cheap for software OpenGL. Only
// what the key light gives is kept apart, since a shadow may fall between corners.
layout(location = 0) in vec3 place;
layout(location = 1) in vec3 normal;
layout(location = 2) in vec4 colour;   // a: gloss, 0 paint, 1 polished metal
layout(location = 3) in float shut;    // 0…1: how far the place is shut off from the light

uniform mat4 uViewProjection;
uniform mat4 uModel;
uniform vec4 uTint;  // sRGB and how much of it: edges in the colour of their station

out vec3 vLight;
out vec3 vKey;
out vec3 vPlace;
out vec3 vNormal;

void main() {
    vec4 world = uModel * vec4(place, 1.0);
    gl_Position = uViewProjection * world;
    vec3 n = normalize(mat3(uModel) * normal);
    vec3 v = normalize(uEye - world.xyz);
    vec3 base = linear(mix(colour.rgb, uTint.rgb, uTint.a));
    float gloss = colour.a;
    float open = 1.0 - shut;
    vec3 c = base * (hemisphere(n) * mix(0.95, 0.55, gloss) + kFillColour * max(dot(n, uFill), 0.0) * 0.20);
    vKey = base * kKeyColour * (max(dot(n, uKey), 0.0) * mix(0.85, 0.45, gloss) * open);
    c *= open;
    vec3 tint = mix(vec3(0.06), base, gloss);
    c += tint * room(reflect(-v, n)) * mix(0.35, 0.75, gloss) * (1.0 - 0.7 * shut);
    float facing = 1.0 - max(dot(n, v), 0.0);
    float f2 = facing * facing;
    c += kRimColour * f2 * f2 * (0.10 + 0.25 * max(dot(n, uRim), 0.0)) * uAmbient;
    vLight = c;
    vPlace = world.xyz;
    vNormal = n;
#ifndef SHADOWS
    vLight = developed(c + vKey);
#endif
}
