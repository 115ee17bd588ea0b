out vec4 oColour;

void main() { oColour = vec4(1.0); }
