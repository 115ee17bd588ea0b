layout(location = 0) in vec3 place;
layout(location = 1) in vec3 normal;

uniform mat4 uViewProjection;

out vec3 vPlace;

void main() {
    vPlace = place;
    gl_Position = uViewProjection * vec4(place, 1.0);
}
