layout(location = 0) in vec3 place;
layout(location = 1) in vec3 normal;
layout(location = 2) in vec4 colour;

uniform mat4 uViewProjection;
uniform mat4 uModel;

out vec3 vPlace;
out vec2 vHatch;
out vec3 vNormal;
out vec4 vColour;

void main() {
    vec4 world = uModel * vec4(place, 1.0);
    vPlace = world.xyz;
    // In the plain of the face, which is one of two: the pattern stays in the metal, and leans the same way on both sides of
    // the axis, since it is one part.
    vHatch = vec2(place.x, abs(place.y) >= abs(place.z) ? place.y : place.z);
    vNormal = mat3(uModel) * normal;
    vColour = colour;
    gl_Position = uViewProjection * world;
}
