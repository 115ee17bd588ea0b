in float vLength;
in float vAcross;

uniform vec4 uColour;   // sRGB
uniform float uWidth;
uniform vec4 uPattern;  // dash, gap, dot, gap in pixels; all 0: a full line

out vec4 oColour;

// Soft-edged stretch from `begin` to `end`.
float stretch(float x, float begin, float end) {
    return clamp(x - begin + 0.5, 0.0, 1.0) * clamp(end - x + 0.5, 0.0, 1.0);
}

void main() {
    float cover = clamp(0.5 * uWidth + 0.5 - abs(vAcross), 0.0, 1.0);
    float period = uPattern.x + uPattern.y + uPattern.z + uPattern.w;
    if (period > 0.0) {
        float x = mod(vLength, period);
        float dot_ = uPattern.x + uPattern.y;
        cover *= max(stretch(x, 0.0, uPattern.x), stretch(x, dot_, dot_ + uPattern.z));
    }
    oColour = vec4(uColour.rgb, uColour.a * cover);
}
