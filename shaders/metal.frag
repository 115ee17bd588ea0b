// A turned surface. Facets after GGX (B. Walter et al., "Microfacet Models for Refraction through Rough Surfaces", 2007), of
// different widths along and across the lay (B. Burley, "Physically-Based Shading at Disney", 2012), shut off from each
// other as E. Heitz has it ("Understanding the Masking-Shadowing Function", 2014) in the cheap form of E. Hammon ("PBR
// Diffuse Lighting for GGX+Smith Microsurfaces", 2017): no more light leaves than came in. Fresnel by C. Schlick, "An
// Inexpensive BRDF Model for Physically-based Rendering", 1994. What is not lamp is the room, mirrored.
// Normals and view directions come in nearly of unit length and are used as they are.
in vec3 vPlace;
in vec3 vNormal;
in vec3 vView;
in vec4 vColour;  // a: how the surface was made, see surface_look.h; hatched: see hatched()
in float vAlong;
flat in float vLay;  // feed marks: mm from one to the next; 0 none to be seen

uniform vec2 uAxis;   // y and z of the axis the body was turned on
uniform vec4 uShade;  // x of the chuck's face, 1 / reach of its shadow, darkness, opacity of the body

uniform vec2 uHatch;  // mm along the profile between lines, lines in a turn; 0: none

out vec4 oColour;

const float kPi = 3.14159265;

float hash(float x) {
    x = fract(x * 0.1031);
    x *= x + 33.33;
    return fract(x * (x + x));
}

// Unevenness from turn to turn as slow streaks, -1 to 1, fading out where they would be finer than a pixel (w: mm a pixel).
float streaks(float s, float perMm, float w) {
    float x = s * perMm;
    float i = floor(x);
    float f = x - i;
    float a = hash(i);
    return (2.0 * mix(a, hash(i + 1.0), f * f * (3.0 - 2.0 * f)) - 1.0) * clamp(1.5 - 1.5 * w * perMm, 0.0, 1.0);
}

// How much of a dark line lies here, 0 to 1. Alpha 150 / 255 is hatched one way, 170 / 255 both ways.
float line(float x, float w) {
    float away = abs(fract(x) - 0.5);
    return clamp((away - 0.5 + 0.11) / max(w, 1e-4) + 0.5, 0.0, 1.0) * clamp(1.6 - 2.0 * w, 0.0, 1.0);
}

float hatched(float made, vec2 place) {
    float kind = round((made - 130.0) / 20.0);
    if (uHatch.x <= 0.0 || kind < 0.5 || kind > 2.5) return 0.0;
    float along = vAlong / uHatch.x;
    float around = atan(place.y, place.x) * uHatch.y / 6.2831853;
    // Not the width of `around` itself, which leaps where a turn ends.
    float w = fwidth(vAlong) / uHatch.x +
              length(fwidth(place)) / max(length(place), 1e-3) * uHatch.y / 6.2831853;
    float dark = line(along + around, w);
    return kind > 1.5 ? max(dark, line(along - around, w)) : dark;
}

// Share of the light of a lamp that a metal of this face throws towards the eye, times the cosine. `size`: of the lamp,
// which widens its mirror image as rough facets do.
vec3 thrown(vec3 l, float size, vec3 n, vec3 t, vec3 b, vec2 a, vec3 face, float nv) {
    float nl = dot(n, l);
    vec3 h = normalize(l + vView);
    vec2 wide = a + size;
    vec3 x = vec3(dot(t, h) / wide.x, dot(b, h) / wide.y, dot(n, h));
    float d = dot(x, x);
    float facets = 1.0 / (kPi * wide.x * wide.y * d * d);
    nl = max(nl, 0.0);
    float seen = 0.5 / max(mix(2.0 * nl * nv, nl + nv, 0.5 * (a.x + a.y)), 0.02);
    float flat_ = 1.0 - max(dot(vView, h), 0.0);
    float f2 = flat_ * flat_;
    return (face + (1.0 - face) * (f2 * f2 * flat_)) * (facets * seen * nl);
}

void main() {
    vec2 place = vPlace.yz - uAxis;
#ifdef CUTS
    if (cutAway(vec3(vPlace.x, place))) discard;
    if (uFaceHatch.x > 0.0 && !gl_FrontFacing) {
        oColour = vec4(developed(cutFace(vPlace, vColour.rgb)), uShade.w);
        return;
    }
#endif
    vec3 n = vNormal;
    vec3 v = vView;
    vec2 radial = place;
    radial *= inversesqrt(max(dot(radial, radial), 1e-6));
    vec3 t = vec3(0.0, -radial.y, radial.x);
    vec3 b = cross(n, t);

    float made = vColour.a * 255.0;
    float scale = made < 60.0 ? 1.0 : 0.0;
    float drawn = made > 60.0 && made < 100.0 ? 1.0 : 0.0;
    float coloured = made > 100.0 && made < 176.0 ? 1.0 : 0.0;
    float cut = made > 176.0 ? 1.0 : 0.0;
    vec2 a = vec2(0.07, 0.06 * exp2((255.0 - made) * 0.040784));  // 0.06 to 0.5, see surface_look.h
    if (cut < 0.5) a = scale > 0.5 ? vec2(0.42, 0.36) : drawn > 0.5 ? vec2(0.30, 0.10) : vec2(0.14, 0.30);

    float w = fwidth(vAlong);
    float grain = cut + coloured > 0.5 ? streaks(vAlong, 2.3, w) + 0.6 * streaks(vAlong, 7.1, w) : 0.0;
    // Marks of the feed wide enough to be seen stand as grooves; those that are not are in the width of the facets.
    float marks = vLay > 0.0 ? clamp(2.0 - 4.0 * w / vLay, 0.0, 1.0) * cut : 0.0;
    vec3 lean = n;
    if (marks > 0.0) {
        float x = vAlong / vLay;
        lean = normalize(n - b * (marks * 2.45 * a.y * (fract(x) - 0.5) * (1.0 + 0.25 * hash(floor(x)))));
        a.y = mix(a.y, 0.09, marks);
    }
    float nv = max(dot(lean, v), 0.05);

    vec3 face = vColour.rgb;
    vec3 body = vec3(0.0);  // what goes into the surface and comes out scattered
    if (scale > 0.5) {
        body = face;
        face = vec3(0.06);
    } else if (coloured > 0.5) {
        body = 0.62 * face;
        face *= 0.45;
    }
    face *= 1.0 + (0.05 + 0.12 * a.y) * grain;
    body *= 1.0 + 0.10 * grain;

    float shadow = lit(vPlace, n);
    float near = open();
    vec3 mirrored = walls(reflect(-v, lean));
#ifdef SHADOWS
    // The room in three facets across the lay: reflections are drawn out there.
    float spread = 1.1 * a.y;
    mirrored += walls(reflect(-v, normalize(lean + spread * b))) + walls(reflect(-v, normalize(lean - spread * b)));
    mirrored *= 1.0 / 3.0;
#endif
    float edge = 1.0 - nv;
    float e2 = edge * edge;
    vec3 around = face + (max(vec3(1.0 - a.y), face) - face) * (e2 * e2 * edge);
    float rough = min(1.0, 1.2 * (a.x + a.y));
    vec3 c = around * mix(mirrored, hemisphere(lean), 0.6 * rough) + body * hemisphere(n);
    c *= 0.30 + 0.70 * near;
    c += kKeyColour * shadow * (1.75 * thrown(uKey, 0.16, lean, t, b, a, face, nv) + body * (0.62 * max(dot(n, uKey), 0.0)));
    c += kRimColour * (1.1 * near) * thrown(uRim, 0.12, lean, t, b, a, face, nv);
#ifdef SHADOWS
    c += kFillColour * (0.42 * near) * thrown(uFill, 0.20, lean, t, b, a, face, nv);
#endif
    c *= 1.0 - 0.62 * hatched(made, place);
    c *= 1.0 - uShade.z * clamp(1.0 - (vPlace.x - uShade.x) * uShade.y, 0.0, 1.0);
    oColour = vec4(developed(c), uShade.w);
}
