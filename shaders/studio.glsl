// The light of the picture, shared by every lit surface: a large soft box above the operator's left shoulder, a strip light
// behind the machine, a weak fill from the right, and the room. Directions are unit vectors, scene frame.
uniform vec3 uEye;
uniform vec3 uPlumbUp;
uniform vec3 uKey;
uniform vec3 uFill;
uniform vec3 uRim;
uniform float uAmbient;  // brightness of the room

const vec3 kKeyColour = vec3(1.00, 0.97, 0.92);
const vec3 kFillColour = vec3(0.72, 0.82, 1.00);
const vec3 kRimColour = vec3(0.86, 0.93, 1.00);
const vec3 kSky = vec3(0.74, 0.80, 0.88);
const vec3 kGround = vec3(0.16, 0.155, 0.15);

vec3 linear(vec3 srgb) { return srgb * srgb; }

// Filmic curve (fit by K. Narkowicz, 2015), then to the screen.
vec3 developed(vec3 c) {
    c = (c * (2.51 * c + 0.03)) / (c * (2.43 * c + 0.59) + 0.14);
    return sqrt(clamp(c, 0.0, 1.0));
}

// What a mirror sees in direction d.
vec3 room(vec3 d) {
    float up = dot(d, uPlumbUp);
    vec3 c = mix(kGround, kSky, smoothstep(-0.25, 0.85, up)) * uAmbient;
    float horizon = clamp(1.0 - 3.2 * abs(up + 0.08), 0.0, 1.0);
    c *= 1.0 - 0.55 * horizon;
    c += kKeyColour * 1.25 * smoothstep(0.72, 0.93, dot(d, uKey));
    c += kFillColour * 0.45 * smoothstep(0.70, 0.98, dot(d, uFill));
    c += kRimColour * 0.70 * smoothstep(0.60, 0.95, dot(d, uRim));
    return c;
}

vec3 hemisphere(vec3 n) {
    return mix(kGround, kSky, 0.5 + 0.5 * dot(n, uPlumbUp)) * uAmbient;
}

// The background: a plain gradient with a soft light behind the work. All in screen colours.
uniform vec3 uTop;
uniform vec3 uBottom;
uniform vec3 uMiddle;
uniform vec4 uPicture;  // left, bottom, width, height of the picture, pixels

vec3 backdrop() {
    vec2 p = (gl_FragCoord.xy - uPicture.xy) / uPicture.zw;
    vec2 q = p - vec2(0.5, 0.56);
    float glow = clamp(1.0 - 2.1 * dot(q, q), 0.0, 1.0);
    return mix(mix(uBottom, uTop, p.y), uMiddle, 0.75 * glow * glow);
}
