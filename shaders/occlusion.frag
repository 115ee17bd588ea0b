// How much of the sky is shut off by what stands nearby, from the depths of the picture: along a few directions on the
// screen, how far surfaces rise above the plain of the surface looked at, in the manner of L. Bavoil and M. Sainz, "Screen
// space ambient occlusion", 2008. The pattern is turned from pixel to pixel and evened out by occlusion_soft.frag.
uniform sampler2D uDepth;
uniform vec2 uTexel;   // 1 / size
uniform vec4 uLens;    // tan of half the field of view across and up, near, far
uniform float uReach;  // mm
uniform float uPxPerMm; // at 1 mm from the eye

out vec4 oColour;

float distanceAt(vec2 uv) {
    float d = 2.0 * texture(uDepth, uv).r - 1.0;
    return 2.0 * uLens.z * uLens.w / (uLens.w + uLens.z - d * (uLens.w - uLens.z));
}

// From the eye, x to the right, y up, z towards the eye.
vec3 placeAt(vec2 uv) {
    float away = distanceAt(uv);
    return vec3((2.0 * uv - 1.0) * uLens.xy * away, -away);
}

// The nearer of two neighbours, so that the plain does not lean over an edge.
vec3 slope(vec3 here, vec3 low, vec3 high) {
    vec3 a = here - low, b = high - here;
    return abs(a.z) < abs(b.z) ? a : b;
}

void main() {
    vec2 uv = gl_FragCoord.xy * uTexel;
    if (texture(uDepth, uv).r > 0.99999) {
        oColour = vec4(1.0);
        return;
    }
    vec3 here = placeAt(uv);
    vec3 across = slope(here, placeAt(uv - vec2(uTexel.x, 0.0)), placeAt(uv + vec2(uTexel.x, 0.0)));
    vec3 up = slope(here, placeAt(uv - vec2(0.0, uTexel.y)), placeAt(uv + vec2(0.0, uTexel.y)));
    vec3 n = normalize(cross(across, up));
    float reachPx = min(uReach * uPxPerMm / -here.z, 90.0);
    ivec2 cell = ivec2(gl_FragCoord.xy) & 3;
    float turn = float(cell.x * 4 + cell.y) * 0.0981748;  // sixteenths of a quarter turn
    float start = float((cell.x + 2 * cell.y) & 3) * 0.25;
    float shut = 0.0;
    for (int i = 0; i < 4; ++i) {
        float angle = turn + 1.5707963 * float(i);
        vec2 way = vec2(cos(angle), sin(angle)) * uTexel * reachPx;
        float highest = 0.0;
        for (int k = 0; k < 3; ++k) {
            float share = (float(k) + 0.4 + 0.6 * start) / 3.0;
            vec3 to = placeAt(uv + way * share * share) - here;
            float size = length(to);
            float rise = dot(to, n) / max(size, 1e-4) - 0.08;
            highest = max(highest, rise * clamp(1.6 - 1.6 * size / uReach, 0.0, 1.0));
        }
        shut += highest;
    }
    oColour = vec4(clamp(1.0 - 0.36 * shut, 0.0, 1.0));
}
