// Evens out the pattern of occlusion.frag over four by four pixels, across no edge.
uniform sampler2D uOcclusionRaw;
uniform sampler2D uDepth;
uniform vec2 uTexel;  // 1 / size
uniform vec4 uLens;   // as in occlusion.frag

out vec4 oColour;

float distanceAt(vec2 uv) {
    float d = 2.0 * texture(uDepth, uv).r - 1.0;
    return 2.0 * uLens.z * uLens.w / (uLens.w + uLens.z - d * (uLens.w - uLens.z));
}

void main() {
    vec2 uv = gl_FragCoord.xy * uTexel;
    float here = distanceAt(uv);
    float sum = 0.0, weight = 0.0;
    for (int y = -2; y < 2; ++y) {
        for (int x = -2; x < 2; ++x) {
            vec2 at = uv + (vec2(float(x), float(y)) + 0.5) * uTexel;
            float w = max(0.02, 1.0 - 40.0 * abs(distanceAt(at) - here) / here);
            sum += w * texture(uOcclusionRaw, at).r;
            weight += w;
        }
    }
    oColour = vec4(sum / weight);
}
