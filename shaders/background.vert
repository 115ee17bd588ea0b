// One triangle over the whole picture, at the far end of the depth range.
out vec2 vPlace;

void main() {
    vec2 p = vec2(float((gl_VertexID << 1) & 2), float(gl_VertexID & 2));
    vPlace = p;
    gl_Position = vec4(2.0 * p - 1.0, 1.0, 1.0);
}
