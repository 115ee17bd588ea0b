// A line along the inside and the outside of where a mask ends, one mask in red and one in green.
uniform sampler2D uMask;
uniform vec2 uTexel;   // 1 / size
uniform vec2 uCorner;  // of the picture in the framebuffer, pixels
uniform float uWidth;  // of the line, pixels
uniform float uDash;   // pixels; 0: a full line
uniform vec4 uColour;  // sRGB

out vec4 oColour;

void main() {
    vec2 pixel = gl_FragCoord.xy - uCorner;
    vec2 uv = pixel * uTexel;
    vec2 here = texture(uMask, uv).rg;
    vec2 least = here, most = here;
    for (int i = 0; i < 12; ++i) {
        float angle = 0.5235988 * float(i);
        vec2 to = vec2(cos(angle), sin(angle)) * uTexel;
        vec2 far = texture(uMask, uv + 0.5 * uWidth * to).rg;
        vec2 near = texture(uMask, uv + 0.25 * uWidth * to).rg;
        least = min(least, min(far, near));
        most = max(most, max(far, near));
    }
    vec2 edge = most - least;
    float cover = max(edge.r, edge.g);
    if (uDash > 0.0 && mod(pixel.x + pixel.y, 2.0 * uDash) > uDash) cover = 0.0;
    // A little of the colour over the bodies themselves, so that small ones are found.
    float inside = 0.16 * max(here.r, here.g);
    oColour = vec4(uColour.rgb, uColour.a * max(cover, inside));
}
