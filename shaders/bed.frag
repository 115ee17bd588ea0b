in vec4 vColour;

out vec4 oColour;

void main() { oColour = vec4(mix(backdrop(), vColour.rgb, vColour.a), 1.0); }
