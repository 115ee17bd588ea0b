// Finds the pixels of a picture where brightness breaks off, for smooth.frag to work on; all others are dropped. A pass of
// its own, which leaves its finding in the depth buffer: software OpenGL skips whole pixels by their depth only, never by an
// `if` or a `discard` further up in the same shader.
uniform sampler2D uDrawn;
uniform vec2 uTexel;  // 1 / size

out vec4 oColour;

float lightAt(vec2 p) { return dot(texture(uDrawn, p).rgb, vec3(0.299, 0.587, 0.114)); }

void main() {
    vec2 uv = gl_FragCoord.xy * uTexel;
    vec2 low = uv - uTexel, high = uv + uTexel;
    float nw = lightAt(vec2(low.x, high.y)), ne = lightAt(high);
    float sw = lightAt(low), se = lightAt(vec2(high.x, low.y));
    float least = min(min(nw, ne), min(sw, se));
    float most = max(max(nw, ne), max(sw, se));
    if (most - least < max(0.04, 0.12 * most)) discard;
    oColour = vec4(1.0);
}
