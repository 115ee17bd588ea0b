// The slanted bed behind the work: a plain that fades into the background, with soft shadows of what stands before it.
in vec3 vPlace;

uniform vec4 uExtent;     // middle x, middle y, half width, half height of the plain, mm
uniform vec3 uColour;     // sRGB
uniform float uDarkness;  // of the shadows
uniform vec4 uSpindleShadow;  // x from, x to, radius, distance of the axis from the plain
uniform vec4 uBilletShadow;   // the same
uniform vec4 uTurretShadow;   // x from, x to, middle y, radius
uniform float uRails;         // distance of the guideways from the axis, mm

out vec4 oColour;

float span(float x, float from, float to, float soft) {
    return smoothstep(from - soft, from + soft, x) * (1.0 - smoothstep(to - soft, to + soft, x));
}

// Share of the sky that a round bar at distance h and lateral distance d shuts off.
float barShadow(vec4 bar) {
    float d = vPlace.y;
    return bar.z * bar.w / (bar.w * bar.w + d * d) * span(vPlace.x, bar.x, bar.y, 0.6 * bar.w);
}

float rail(float y, float at, float width) {
    float d = abs(y - at);
    float w = fwidth(y);
    return 1.0 - smoothstep(width - w, width + w, d);
}

void main() {
    vec2 p = (vPlace.xy - uExtent.xy) / uExtent.zw;
    float fade = clamp(1.0 - dot(p, p), 0.0, 1.0);
    fade = fade * fade * (3.0 - 2.0 * fade);
    float rails = rail(vPlace.y, uRails, 9.0) + rail(vPlace.y, -uRails, 9.0);
    vec3 c = uColour * (1.0 + 0.16 * min(rails, 1.0));
    float shadow = barShadow(uSpindleShadow) + barShadow(uBilletShadow);
    vec2 t = vec2(0.0, vPlace.y - uTurretShadow.z) / uTurretShadow.w;
    shadow += 0.55 * (1.0 - smoothstep(0.5, 1.35, length(t))) * span(vPlace.x, uTurretShadow.x, uTurretShadow.y, 45.0);
    c *= 1.0 - uDarkness * clamp(shadow, 0.0, 1.0);
    oColour = vec4(mix(backdrop(), c, fade), 1.0);
}
