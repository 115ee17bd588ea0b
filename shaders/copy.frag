// A texture pixel for pixel, its lower left one at uCorner.
uniform sampler2D uDrawn;
uniform vec2 uCorner;

out vec4 oColour;

void main() {
    ivec2 texel = ivec2(gl_FragCoord.xy) - ivec2(uCorner);
    oColour = texelFetch(uDrawn, clamp(texel, ivec2(0), textureSize(uDrawn, 0) - 1), 0);
}
