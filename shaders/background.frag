out vec4 oColour;

void main() { oColour = vec4(backdrop(), 1.0); }
