#include "gui/gl/offscreen.h"

#include <EGL/egl.h>
#include <EGL/eglext.h>

#include <charconv>
#include <cstdlib>
#include <cstring>
#include <vector>

#include "gui/gl/loader.h"
#include "gui/gl/picture.h"
#include "sim/base/say.h"

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

template <typename Function>
Function eglFunction(const char* name) {
    return reinterpret_cast<Function>(eglGetProcAddress(name));
}

std::vector<EGLDeviceEXT> allDevices() {
    if (!offered("EGL_EXT_device_enumeration") && !offered("EGL_EXT_device_base")) return {};
    const auto query = eglFunction<PFNEGLQUERYDEVICESEXTPROC>("eglQueryDevicesEXT");
    EGLint count = 0;
    if (!query || !query(0, nullptr, &count) || count <= 0) return {};
    std::vector<EGLDeviceEXT> devices(static_cast<std::size_t>(count));
    if (!query(count, devices.data(), &count)) return {};
    devices.resize(static_cast<std::size_t>(count));
    return devices;
}

bool isSoftware(EGLDeviceEXT device) {
    const auto query = eglFunction<PFNEGLQUERYDEVICESTRINGEXTPROC>("eglQueryDeviceStringEXT");
    const char* all = query ? query(device, EGL_EXTENSIONS) : nullptr;
    return all && std::strstr(all, "EGL_MESA_device_software");
}

EGLDisplay displayOf(EGLDeviceEXT device) {
    return eglGetPlatformDisplay(EGL_PLATFORM_DEVICE_EXT, device, nullptr);
}

[[noreturn]] void refuse(const std::string& what) {
    throw GraphicsError(say("Drawing without a display failed: {}. A driver with software OpenGL is enough.", what));
}

}  // namespace

GlDevice glDeviceNamed(std::string_view text) {
    if (text.empty() || text == "any") return {};
    if (text == "software") return {GlDevice::Kind::Software, 0};
    GlDevice device{GlDevice::Kind::Number, -1};
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), device.number);
    if (error == std::errc() && end == text.data() + text.size() && device.number >= 0) return device;
    throw GraphicsError(say("FIRSTOFF_GL_DEVICE needs any, software or the number of a device, not \"{}\".", text));
}

GlDevice glDeviceFromEnvironment() {
    const char* text = std::getenv("FIRSTOFF_GL_DEVICE");
    const GlDevice device = glDeviceNamed(text ? text : "");
    const char* software = std::getenv("LIBGL_ALWAYS_SOFTWARE");
    const bool always = software && *software != '\0' && *software != '0' && *software != 'f';
    return device == GlDevice{} && always ? GlDevice{GlDevice::Kind::Software, 0} : device;
}

struct OffscreenContext::State {
    EGLDisplay display = EGL_NO_DISPLAY;
    EGLContext context = EGL_NO_CONTEXT;

    ~State() { close(); }
    void close();
    void open(EGLDisplay where);
    void openDevice(int number);
    void openSoftware();
    void openAny();
    bool tryAccelerator();
};

void OffscreenContext::State::close() {
    if (display == EGL_NO_DISPLAY) return;
    eglMakeCurrent(display, EGL_NO_SURFACE, EGL_NO_SURFACE, EGL_NO_CONTEXT);
    if (context != EGL_NO_CONTEXT) eglDestroyContext(display, context);
    eglTerminate(display);
    display = EGL_NO_DISPLAY;
    context = EGL_NO_CONTEXT;
}

void OffscreenContext::State::open(EGLDisplay where) {
    if (where == EGL_NO_DISPLAY) refuse(tr("no EGL display"));
    if (!eglInitialize(where, nullptr, nullptr)) refuse(tr("EGL does not start"));
    display = where;
    if (!eglBindAPI(EGL_OPENGL_API)) refuse(tr("EGL has no OpenGL"));
    const EGLint wanted[] = {EGL_SURFACE_TYPE, EGL_PBUFFER_BIT, EGL_RENDERABLE_TYPE, EGL_OPENGL_BIT, EGL_NONE};
    EGLConfig config = nullptr;
    EGLint count = 0;
    if (!eglChooseConfig(display, wanted, &config, 1, &count) || count == 0) refuse(tr("no fitting configuration"));
    const EGLint version[] = {
        EGL_CONTEXT_MAJOR_VERSION,           4,       EGL_CONTEXT_MINOR_VERSION, 1, EGL_CONTEXT_OPENGL_PROFILE_MASK,
        EGL_CONTEXT_OPENGL_CORE_PROFILE_BIT, EGL_NONE};
    context = eglCreateContext(display, config, EGL_NO_CONTEXT, version);
    if (context == EGL_NO_CONTEXT) refuse(tr("no OpenGL 4.1 core context"));
    if (!eglMakeCurrent(display, EGL_NO_SURFACE, EGL_NO_SURFACE, context)) {
        refuse(tr("the context does not run without a surface"));
    }
    loadOpenGl(eglGetProcAddress);
}

void OffscreenContext::State::openDevice(int number) {
    const std::vector<EGLDeviceEXT> devices = allDevices();
    if (static_cast<std::size_t>(number) >= devices.size()) {
        refuse(say("EGL tells of {} devices, so there is no number {} (counted from 0)", devices.size(), number));
    }
    open(displayOf(devices[static_cast<std::size_t>(number)]));
}

// What is drawn without being asked is software where LIBGL_ALWAYS_SOFTWARE says so, and often else; if not, Mesa's
// software device is looked for by name.
void OffscreenContext::State::openSoftware() {
    try {
        open(surfacelessDisplay());
        if (isSoftwareOpenGl()) return;
    } catch (const GraphicsError&) {
    }
    close();
    for (EGLDeviceEXT device : allDevices()) {
        if (!isSoftware(device)) continue;
        open(displayOf(device));
        return;
    }
    refuse(tr("there is no software OpenGL"));
}

// True when an accelerator draws now. Whatever stands in the way of one, the next is tried.
bool OffscreenContext::State::tryAccelerator() {
    for (EGLDeviceEXT device : allDevices()) {
        if (isSoftware(device)) continue;
        try {
            open(displayOf(device));
            if (!isSoftwareOpenGl()) return true;
        } catch (const GraphicsError&) {
        }
        close();
    }
    return false;
}

void OffscreenContext::State::openAny() {
    try {
        open(surfacelessDisplay());
        if (!isSoftwareOpenGl()) return;
    } catch (const GraphicsError&) {
    }
    close();
    if (!tryAccelerator()) open(surfacelessDisplay());
}

OffscreenContext::OffscreenContext(GlDevice device) : state_(std::make_unique<State>()) {
    switch (device.kind) {
        case GlDevice::Kind::Number:
            state_->openDevice(device.number);
            break;
        case GlDevice::Kind::Software:
            state_->openSoftware();
            break;
        case GlDevice::Kind::Any:
            state_->openAny();
            break;
    }
}

OffscreenContext::~OffscreenContext() = default;

}  // namespace firstoff::gui
