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

// Bright parts run together softly instead of breaking off; then to the screen. A parabola that is level where it reaches 1.
vec3 developed(vec3 c) {
    c = min(c, 1.6);
    return sqrt(c * (1.25 - 0.390625 * c));
}

// 0 up to `low`, 1 from `low` + 1 / `rate` on, smooth between. Cheaper than smoothstep, which divides.
float ramp(float x, float low, float rate) {
    float t = clamp((x - low) * rate, 0.0, 1.0);
    return t * t * (3.0 - 2.0 * t);
}

// What a mirror sees in direction d of the room without its lamps.
vec3 walls(vec3 d) {
    float up = dot(d, uPlumbUp);
    float horizon = clamp(1.0 - 3.2 * abs(up + 0.08), 0.0, 1.0);
    float floor_ = clamp(1.0 - 3.0 * abs(up + 0.62), 0.0, 1.0);  // the floor before the machine, where the lamps fall
    return mix(kGround, kSky, ramp(up, -0.25, 0.91) + 0.30 * floor_ * floor_) * (uAmbient - 0.55 * uAmbient * horizon);
}

// With its lamps.
vec3 room(vec3 d) {
    vec3 c = walls(d);
    c += kKeyColour * (0.95 * ramp(dot(d, uKey), 0.72, 4.8));
    c += kFillColour * (0.45 * ramp(dot(d, uFill), 0.70, 3.6));
    c += kRimColour * (0.70 * ramp(dot(d, uRim), 0.60, 2.9));
    return c;
}

vec3 hemisphere(vec3 n) {
    return mix(kGround, kSky, 0.5 + 0.5 * dot(n, uPlumbUp)) * uAmbient;
}

#ifdef FRAGMENT
#ifdef SHADOWS
uniform sampler2DShadow uShadowMap;
uniform mat4 uToLight;    // scene to the map, 0 to 1
uniform vec2 uShadowPen;  // how far off the surface the place is asked for, mm; reach of the taps, 0 to 1
#ifdef OCCLUSION
const int kTaps = 16;
#else
const int kTaps = 4;
#endif

// How much of the key light reaches a place, 0 to 1. Taps lie on a spiral by the golden angle (H. Vogel, "A better way to
// construct the sunflower head", 1979), each between four texels by the driver.
float lit(vec3 place, vec3 n) {
    vec3 p = (uToLight * vec4(place + n * uShadowPen.x, 1.0)).xyz;
    vec2 rim = abs(p.xy - 0.5);
    float inside = clamp((0.5 - max(rim.x, rim.y)) * 40.0, 0.0, 1.0);
    float sum = 0.0;
    for (int i = 0; i < kTaps; ++i) {
        float r = sqrt((float(i) + 0.5) / float(kTaps)) * uShadowPen.y;
        float a = 2.3999632 * float(i);
        sum += texture(uShadowMap, vec3(p.xy + r * vec2(cos(a), sin(a)), p.z));
    }
    return mix(1.0, sum / float(kTaps), inside);
}
#else
float lit(vec3 place, vec3 n) { return 1.0; }
#endif

// The background: a plain gradient with a soft light behind the work. All in screen colours.// The background: a plain gradient with a soft light behind the work. All in screen colours.
uniform vec3 uTop;
uniform vec3 uBottom;
uniform vec3 uMiddle;
uniform vec4 uPicture;  // left, bottom, width, height of the picture, pixels

#ifdef CUTS
uniform float uCutaway;   // left out: 0 nothing, 1 the quarter y, z > 0, 2 the half z > 0
uniform vec3 uFaceHatch;  // of the face: spacing, mm; which way it leans; share of a line. 0: the body has faces of its own

bool cutAway(vec3 p) { return uCutaway > 0.5 && p.z > 0.0 && (uCutaway > 1.5 || p.y > 0.0); }

// The inside of a body seen through the cut is its section: hatched where the line of sight goes into the metal.
vec3 cutFace(vec3 seen, vec3 base) {
    vec3 d = seen - uEye;
    float tz = d.z < 0.0 ? -uEye.z / d.z : 2.0;
    float ty = d.y < 0.0 && uCutaway < 1.5 ? -uEye.y / d.y : 2.0;
    vec3 atZ = uEye + tz * d, atY = uEye + ty * d;
    bool byY = ty < 1.0 && atY.z > 0.0 && (ty < tz || atZ.y < 0.0);
    vec2 p = byY ? vec2(atY.x, atY.z) : vec2(atZ.x, atZ.y);
    float x = (p.x + uFaceHatch.y * p.y) * 0.70710678 / uFaceHatch.x;
    float w = fwidth(x);
    float away = abs(fract(x) - 0.5);
    float line = clamp((away - 0.5 + 0.5 * uFaceHatch.z) / max(w, 1e-4) + 0.5, 0.0, 1.0) * clamp(1.6 - 2.0 * w, 0.0, 1.0);
    return base * (0.80 * (0.55 + 0.45 * uAmbient)) * (1.0 - 0.55 * line);
}
#endif

#ifdef OCCLUSION
uniform sampler2D uOpen;  // as occlusion.frag leaves it
float open() { return texture(uOpen, (gl_FragCoord.xy - uPicture.xy) / uPicture.zw).r; }
#else
float open() { return 1.0; }
#endif

vec3 backdrop() {
    vec2 p = (gl_FragCoord.xy - uPicture.xy) / uPicture.zw;
    vec2 q = p - vec2(0.5, 0.56);
    float glow = clamp(1.0 - 2.1 * dot(q, q), 0.0, 1.0);
    return mix(mix(uBottom, uTop, p.y), uMiddle, 0.75 * glow * glow);
}
#endif
