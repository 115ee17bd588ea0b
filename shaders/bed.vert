// The slanted bed behind the work: a plain that fades into the background, with soft shadows of what stands before it,
// worked out at the corners of a fine grid.
layout(location = 0) in vec3 place;
layout(location = 1) in vec3 normal;
layout(location = 2) in vec4 colour;  // r: 1 on a guideway

uniform mat4 uViewProjection;
uniform vec4 uExtent;     // middle x, middle y, half width, half height of the plain, mm
uniform vec3 uColour;     // sRGB
uniform float uDarkness;  // of the shadows
uniform vec4 uSpindleShadow;  // x from, x to, radius, distance of the axis from the plain
uniform vec4 uBilletShadow;   // the same
uniform vec4 uTurretShadow;   // x from, x to, middle y, radius

out vec4 vColour;  // a: how much of the bed is seen
out vec3 vPlace;

float span(float x, float from, float to, float soft) {
    return smoothstep(from - soft, from + soft, x) * (1.0 - smoothstep(to - soft, to + soft, x));
}

// Share of the sky that a round bar at distance h and lateral distance d shuts off.
float barShadow(vec4 bar) {
    float d = place.y;
    return bar.z * bar.w / (bar.w * bar.w + d * d) * span(place.x, bar.x, bar.y, 0.6 * bar.w);
}

void main() {
    vec2 p = (place.xy - uExtent.xy) / uExtent.zw;
    float fade = clamp(1.0 - dot(p, p), 0.0, 1.0);
    fade = fade * fade * (3.0 - 2.0 * fade);
    float shadow = barShadow(uSpindleShadow) + barShadow(uBilletShadow);
    float t = abs(place.y - uTurretShadow.z) / uTurretShadow.w;
    shadow += 0.55 * (1.0 - smoothstep(0.5, 1.35, t)) * span(place.x, uTurretShadow.x, uTurretShadow.y, 45.0);
    vColour = vec4(uColour * (1.0 + 0.16 * colour.r) * (1.0 - uDarkness * clamp(shadow, 0.0, 1.0)), fade);
    vPlace = place;
    gl_Position = uViewProjection * vec4(place, 1.0);
}
