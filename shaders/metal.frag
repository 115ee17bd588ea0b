// A turned surface: grooves run round the axis, so reflections are drawn out across them. Specular term in the manner of
// G. Ward, "Measuring and modeling anisotropic reflection", 1992, with the room mirrored in a normal bent towards the eye
// across the grooves. Normals and view directions come in nearly of unit length and are used as they are.
in vec3 vPlace;
in vec3 vNormal;
in vec3 vView;
in vec4 vColour;  // a: fineness of the surface, 1 freshly finished, 0 black bar; hatched: see hatched()
in float vAlong;

uniform vec2 uAxis;   // y and z of the axis the body was turned on
uniform float uCutaway;  // left out: 0 nothing, 1 the quarter y, z > 0, 2 the half z > 0; round bodies come without it
uniform vec4 uShade;  // x of the chuck's face, 1 / reach of its shadow, darkness, opacity of the body

uniform vec2 uHatch;  // mm along the profile between lines, lines in a turn; 0: none

out vec4 oColour;

float hash(float x) {
    x = fract(x * 0.1031);
    x *= x + 33.33;
    return fract(x * (x + x));
}

// Grooves of the tool as slow streaks, -1 to 1, fading out where they would be finer than a pixel (w: mm a pixel).
float streaks(float s, float perMm, float w) {
    float x = s * perMm;
    float i = floor(x);
    float f = x - i;
    float a = hash(i);
    return (2.0 * mix(a, hash(i + 1.0), f * f * (3.0 - 2.0 * f)) - 1.0) * clamp(1.5 - 1.5 * w * perMm, 0.0, 1.0);
}

// How much of a dark line lies here, 0 to 1. Fineness 150 / 255 is hatched one way, 170 / 255 both ways.
float line(float x, float w) {
    float away = abs(fract(x) - 0.5);
    return clamp((away - 0.5 + 0.11) / max(w, 1e-4) + 0.5, 0.0, 1.0) * clamp(1.6 - 2.0 * w, 0.0, 1.0);
}

float hatched(float fineness, vec2 place) {
    float kind = round((fineness * 255.0 - 130.0) / 20.0);
    if (uHatch.x <= 0.0 || kind < 0.5 || kind > 2.5) return 0.0;
    float along = vAlong / uHatch.x;
    float around = atan(place.y, place.x) * uHatch.y / 6.2831853;
    // Not the width of `around` itself, which leaps where a turn ends.
    float w = fwidth(vAlong) / uHatch.x +
              length(fwidth(place)) / max(length(place), 1e-3) * uHatch.y / 6.2831853;
    float dark = line(along + around, w);
    return kind > 1.5 ? max(dark, line(along - around, w)) : dark;
}

float highlight(vec3 light, vec3 n, vec3 t, vec3 b, vec2 sharpness) {
    vec3 h = light + vView;
    float hn = max(dot(h, n), 0.05);
    vec2 hb = vec2(dot(h, t), dot(h, b)) * sharpness;
    float x = max(1.0 - 0.25 * dot(hb, hb) / (hn * hn), 0.0);
    x *= x;
    return x * x * clamp(3.0 * dot(n, light), 0.0, 1.0);
}

void main() {
    vec2 place = vPlace.yz - uAxis;
    if (uCutaway > 0.5 && place.y > 0.0 && (uCutaway > 1.5 || place.x > 0.0)) discard;
    vec3 n = vNormal;
    vec3 v = vView;
    vec2 radial = place;
    radial *= inversesqrt(max(dot(radial, radial), 1e-6));
    vec3 t = vec3(0.0, -radial.y, radial.x);
    vec3 b = cross(n, t);
    float fine = vColour.a;

    float w = fwidth(vAlong);
    float grain = streaks(vAlong, 2.3, w) + 0.6 * streaks(vAlong, 7.1, w);

    vec3 across = v - t * dot(t, v);
    vec3 bent = normalize(mix(n, across, mix(0.15, 0.42, fine)));
    vec3 mirrored = room(reflect(-v, bent));
    vec2 sharpness = mix(vec2(2.2, 1.4), vec2(7.0, 1.9), fine);
    float key = dot(n, uKey);
    vec3 c = hemisphere(n) * mix(0.75, 0.38, fine) + mirrored * mix(0.12, 0.62, fine);
    c += kKeyColour * (highlight(uKey, n, t, b, sharpness) * mix(0.32, 0.78, fine) + max(key, 0.0) * mix(0.42, 0.16, fine));
    c += kRimColour * (highlight(uRim, n, t, b, sharpness) * mix(0.20, 0.50, fine));
    c *= vColour.rgb * (1.0 + mix(0.06, 0.09, fine) * grain);
    c *= 1.0 - 0.62 * hatched(fine, place);

    float facing = 1.0 - abs(dot(n, v));
    c += kRimColour * (0.10 * uAmbient * facing * facing * facing);
    c *= 1.0 - uShade.z * clamp(1.0 - (vPlace.x - uShade.x) * uShade.y, 0.0, 1.0);
    oColour = vec4(developed(c), uShade.w);
}
