layout(location = 0) in vec3 place;
layout(location = 1) in vec3 normal;
layout(location = 2) in vec4 colour;
layout(location = 3) in float along;
layout(location = 4) in float lay;

uniform mat4 uViewProjection;
uniform mat4 uModel;

out vec3 vPlace;
out vec3 vNormal;
out vec3 vView;  // unit at the corners, nearly so between
out vec4 vColour;
out float vAlong;
flat out float vLay;

void main() {
    vec4 world = uModel * vec4(place, 1.0);
    vPlace = world.xyz;
    vNormal = mat3(uModel) * normal;
    vView = normalize(uEye - world.xyz);
    vColour = vec4(linear(colour.rgb), colour.a);
    vAlong = along;
    vLay = lay;
    gl_Position = uViewProjection * world;
}
