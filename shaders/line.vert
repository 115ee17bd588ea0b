// A straight line of a width in pixels: four corners per instance.
layout(location = 0) in vec3 from;
layout(location = 1) in vec3 to;

uniform mat4 uViewProjection;
uniform vec2 uSize;   // of the picture, pixels
uniform float uWidth; // pixels

out float vLength;   // pixels from the start
out float vAcross;   // pixels from the middle

void main() {
    vec4 a = uViewProjection * vec4(from, 1.0);
    vec4 b = uViewProjection * vec4(to, 1.0);
    vec2 pa = a.xy / a.w * 0.5 * uSize;
    vec2 pb = b.xy / b.w * 0.5 * uSize;
    float len = max(length(pb - pa), 1e-4);
    vec2 along = (pb - pa) / len;
    bool atEnd = (gl_VertexID & 1) == 1;
    float side = (gl_VertexID & 2) == 2 ? 1.0 : -1.0;
    float half_ = 0.5 * uWidth + 1.0;
    vec2 shift = side * half_ * vec2(-along.y, along.x);
    vec4 p = atEnd ? b : a;
    p.xy += shift / (0.5 * uSize) * p.w;
    vLength = atEnd ? len : 0.0;
    vAcross = side * half_;
    gl_Position = p;
}
