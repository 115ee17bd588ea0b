// Takes the stairs out of edges in a picture drawn with one sample a pixel, in the manner of T. Lottes, "FXAA", 2009: the
// picture is averaged along the edge. Runs only where stairs.frag has found one.
uniform sampler2D uDrawn;   // nearest pixel
uniform sampler2D uBetween; // the same picture, between pixels
uniform vec2 uTexel;        // 1 / size

out vec4 oColour;

float light(vec3 c) { return dot(c, vec3(0.299, 0.587, 0.114)); }
float lightAt(vec2 p) { return light(texture(uDrawn, p).rgb); }

void main() {
    vec2 uv = gl_FragCoord.xy * uTexel;
    vec2 low = uv - uTexel, high = uv + uTexel;
    float nw = lightAt(vec2(low.x, high.y)), ne = lightAt(high);
    float sw = lightAt(low), se = lightAt(vec2(high.x, low.y));
    float least = min(min(nw, ne), min(sw, se));
    float most = max(max(nw, ne), max(sw, se));
    vec2 dir = vec2(sw + se - nw - ne, nw + sw - ne - se);
    float soft = max(0.03 * (nw + ne + sw + se), 1.0 / 128.0);
    dir = clamp(dir / (min(abs(dir.x), abs(dir.y)) + soft), -6.0, 6.0) * uTexel;
    vec3 inner = 0.5 * (texture(uBetween, uv - dir / 6.0).rgb + texture(uBetween, uv + dir / 6.0).rgb);
    vec3 outer = 0.5 * inner + 0.25 * (texture(uBetween, uv - 0.5 * dir).rgb + texture(uBetween, uv + 0.5 * dir).rgb);
    float o = light(outer);
    oColour = vec4((o < least || o > most) ? inner : outer, 1.0);
}
