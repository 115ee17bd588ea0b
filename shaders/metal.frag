// A turned surface: grooves run round the axis, so reflections are drawn out across them. Specular term after G. Ward,
// "Measuring and modeling anisotropic reflection", 1992, with the room mirrored in a normal bent towards the eye across the
// grooves.
in vec3 vPlace;
in vec3 vNormal;
in vec4 vColour;  // a: fineness of the surface, 1 freshly finished, 0 black bar
in float vAlong;

uniform vec2 uAxis;      // y and z of the axis the body was turned on
uniform vec4 uShade;     // x of the chuck's face, reach of its shadow, darkness, opacity of the body

out vec4 oColour;

float hash(float x) { return fract(sin(x * 127.1) * 43758.5453); }

// Grooves of the tool as slow streaks, fading out where they would be finer than a pixel.
float streaks(float s, float perMm) {
    float x = s * perMm;
    float fade = clamp(1.5 - 1.5 * fwidth(x), 0.0, 1.0);
    float i = floor(x);
    return mix(0.5, mix(hash(i), hash(i + 1.0), smoothstep(0.0, 1.0, x - i)), fade);
}

vec3 lit(vec3 light, vec3 colour, vec3 n, vec3 v, vec3 t, vec3 b, vec2 sharpness) {
    float nl = dot(n, light);
    if (nl <= 0.0) return vec3(0.0);
    vec3 h = light + v;
    float hn = max(dot(h, n), 1e-3);
    vec2 hb = vec2(dot(h, t), dot(h, b)) / hn * sharpness;
    return colour * exp(-dot(hb, hb)) * sqrt(nl);
}

void main() {
    vec3 n = normalize(vNormal);
    vec3 v = normalize(uEye - vPlace);
    vec2 radial = vPlace.yz - uAxis;
    vec3 t = normalize(vec3(1e-5, -radial.y, radial.x + 1e-5));
    vec3 b = cross(n, t);
    float fine = vColour.a;
    vec3 base = linear(vColour.rgb);

    float grain = streaks(vAlong, 2.3) + 0.6 * streaks(vAlong, 7.1) - 0.8;
    base *= 1.0 + mix(0.10, 0.16, fine) * grain;

    vec3 acrossNormal = cross(cross(t, v), t);
    vec3 bent = normalize(mix(n, normalize(acrossNormal), mix(0.20, 0.45, fine)));
    vec3 mirrored = room(reflect(-v, bent));
    vec2 sharpness = mix(vec2(2.2, 1.4), vec2(7.0, 1.9), fine);
    vec3 c = hemisphere(n) * mix(0.75, 0.38, fine) + mirrored * mix(0.12, 0.62, fine);
    c += lit(uKey, kKeyColour, n, v, t, b, sharpness) * mix(0.35, 1.05, fine);
    c += lit(uRim, kRimColour, n, v, t, b, sharpness) * mix(0.20, 0.55, fine);
    c += max(dot(n, uKey), 0.0) * mix(0.42, 0.16, fine);
    c *= base;

    float facing = 1.0 - abs(dot(n, v));
    c += kRimColour * 0.10 * facing * facing * facing * uAmbient;
    c *= 1.0 - uShade.z * clamp(1.0 - (vPlace.x - uShade.x) / uShade.y, 0.0, 1.0);
    oColour = vec4(developed(c), uShade.w);
}
