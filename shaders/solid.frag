in vec3 vLight;

out vec4 oColour;

void main() { oColour = vec4(vLight, 1.0); }
