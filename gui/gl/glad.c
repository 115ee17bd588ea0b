// The one place where the loader is compiled.
#define GLAD_GL_IMPLEMENTATION
#include <glad/gl.h>
