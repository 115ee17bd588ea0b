// Depth alone: what the light sees, or what lies how far from the eye.
layout(location = 0) in vec3 place;

uniform mat4 uViewProjection;
uniform mat4 uModel;

out vec3 vPlace;

void main() {
    vec4 world = uModel * vec4(place, 1.0);
    vPlace = world.xyz;
    gl_Position = uViewProjection * world;
}
