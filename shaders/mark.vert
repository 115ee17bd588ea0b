// The datum: a disc of a fixed size in pixels.
uniform mat4 uViewProjection;
uniform vec3 uPlace;
uniform vec2 uSize;    // of the picture, pixels
uniform float uRadius; // pixels

out vec2 vPixel;  // from the middle, pixels, y up

void main() {
    vec4 p = uViewProjection * vec4(uPlace, 1.0);
    vPixel = (uRadius + 2.0) * vec2((gl_VertexID & 1) == 1 ? 1.0 : -1.0, (gl_VertexID & 2) == 2 ? 1.0 : -1.0);
    p.xy += vPixel / (0.5 * uSize) * p.w;
    gl_Position = p;
}
