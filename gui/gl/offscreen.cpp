#include "gui/gl/offscreen.h"

#include <EGL/egl.h>
#include <EGL/eglext.h>

#include <cstring>

#include "gui/gl/loader.h"

namespace firstoff::gui {

namespace {

bool offered(const char* extension) {
    const char* all = eglQueryString(EGL_NO_DISPLAY, EGL_EXTENSIONS);
    return all && std::strstr(all, extension);
}

EGLDisplay surfacelessDisplay() {
    if (!offered("EGL_MESA_platform_surfaceless")) return eglGetDisplay(EGL_DEFAULT_DISPLAY);
    return eglGetPlatformDisplay(EGL_PLATFORM_SURFACELESS_MESA, nullptr, nullptr);
}

[[noreturn]] void refuse(const char* what) {
    throw GraphicsError(std::string("Drawing without a display failed: ") + what +
                        ". A driver with software OpenGL is enough.");
}

}  // namespace

struct OffscreenContext::State {
    EGLDisplay display = EGL_NO_DISPLAY;
    EGLContext context = EGL_NO_CONTEXT;

    ~State() {
        if (display == EGL_NO_DISPLAY) return;
        eglMakeCurrent(display, EGL_NO_SURFACE, EGL_NO_SURFACE, EGL_NO_CONTEXT);
        if (context != EGL_NO_CONTEXT) eglDestroyContext(display, context);
        eglTerminate(display);
    }
};

OffscreenContext::OffscreenContext() : state_(std::make_unique<State>()) {
    state_->display = surfacelessDisplay();
    if (state_->display == EGL_NO_DISPLAY) refuse("no EGL display");
    if (!eglInitialize(state_->display, nullptr, nullptr)) {
        state_->display = EGL_NO_DISPLAY;
        refuse("EGL does not start");
    }
    if (!eglBindAPI(EGL_OPENGL_API)) refuse("EGL has no OpenGL");
    const EGLint wanted[] = {EGL_SURFACE_TYPE, EGL_PBUFFER_BIT, EGL_RENDERABLE_TYPE, EGL_OPENGL_BIT, EGL_NONE};
    EGLConfig config = nullptr;
    EGLint count = 0;
    if (!eglChooseConfig(state_->display, wanted, &config, 1, &count) || count == 0) refuse("no fitting configuration");
    const EGLint version[] = {
        EGL_CONTEXT_MAJOR_VERSION,           4,       EGL_CONTEXT_MINOR_VERSION, 1, EGL_CONTEXT_OPENGL_PROFILE_MASK,
        EGL_CONTEXT_OPENGL_CORE_PROFILE_BIT, EGL_NONE};
    state_->context = eglCreateContext(state_->display, config, EGL_NO_CONTEXT, version);
    if (state_->context == EGL_NO_CONTEXT) refuse("no OpenGL 4.1 core context");
    if (!eglMakeCurrent(state_->display, EGL_NO_SURFACE, EGL_NO_SURFACE, state_->context)) {
        refuse("the context does not run without a surface");
    }
    loadOpenGl(eglGetProcAddress);
}

OffscreenContext::~OffscreenContext() = default;

}  // namespace firstoff::gui
