in vec3 vLight;

uniform float uOpacity;

out vec4 oColour;

void main() { oColour = vec4(vLight, uOpacity); }
