#include "tests/window/x_drop.h"

#include <X11/Xatom.h>
#include <X11/Xlib.h>

#include <chrono>
#include <cstdio>
#include <functional>
#include <memory>
#include <thread>

namespace footing::test {

namespace {

using namespace std::chrono_literals;

constexpr long protocol_version = 5;
constexpr auto longest_wait = 8s;

struct CloseDisplay {
    void operator()(Display* display) const { XCloseDisplay(display); }
};

/// "file:///tmp/a%20lesson.h5" (RFC 8089, RFC 3986).
std::string uri_of(const std::string& file) {
    std::string uri = "file://";
    for (const char byte : file) {
        const auto code = static_cast<unsigned char>(byte);
        const bool plain = (code >= '0' && code <= '9') || (code >= 'A' && code <= 'Z') ||
                           (code >= 'a' && code <= 'z') || byte == '/' || byte == '.' || byte == '-' ||
                           byte == '_';
        char escaped[4];
        std::snprintf(escaped, sizeof escaped, "%%%02X", code);
        uri += plain ? std::string(1, byte) : std::string(escaped);
    }
    return uri;
}

/// The side that drags.
class Source {
  public:
    explicit Source(const std::string& name) : display_(XOpenDisplay(name.c_str())) {
        if (!display_) return;
        window_ = XCreateSimpleWindow(display_.get(), root(), 0, 0, 1, 1, 0, 0, 0);
    }

    bool drop(const std::string& title, const std::string& uri) {
        if (!display_) return false;
        target_ = window_called(title);
        if (target_ == None) return false;
        XSetSelectionOwner(display_.get(), atom("XdndSelection"), window_, CurrentTime);
        send("XdndEnter", protocol_version << 24, static_cast<long>(atom("text/uri-list")));
        send("XdndPosition", 0, (200L << 16) | 200L, CurrentTime, static_cast<long>(atom("XdndActionCopy")));
        bool accepted = false;
        if (!wait_for([&](const XEvent& event) {
                const bool status = is_message(event, "XdndStatus");
                if (status) accepted = (event.xclient.data.l[1] & 1) != 0;
                return status;
            }) ||
            !accepted)
            return false;
        send("XdndDrop", 0, CurrentTime);
        return wait_for([&](const XEvent& event) {
            if (event.type == SelectionRequest) answer(event.xselectionrequest, uri + "\r\n");
            return is_message(event, "XdndFinished");
        });
    }

  private:
    [[nodiscard]] Window root() const { return DefaultRootWindow(display_.get()); }
    [[nodiscard]] Atom atom(const char* name) const { return XInternAtom(display_.get(), name, False); }
    [[nodiscard]] bool is_message(const XEvent& event, const char* name) const {
        return event.type == ClientMessage && event.xclient.message_type == atom(name);
    }

    /// A window of the top level that takes what is dragged, by the beginning of its title.
    [[nodiscard]] Window window_called(const std::string& title) const {
        Window parent = None;
        Window top = None;
        Window* children = nullptr;
        unsigned int count = 0;
        if (XQueryTree(display_.get(), root(), &top, &parent, &children, &count) == 0) return None;
        Window found = None;
        for (unsigned int i = 0; i < count; ++i) {
            char* name = nullptr;
            if (XFetchName(display_.get(), children[i], &name) == 0 || !name) continue;
            if (std::string(name).starts_with(title)) found = children[i];
            XFree(name);
        }
        if (children) XFree(children);
        return found;
    }

    void send(const char* name, long second, long third = 0, long fourth = 0, long fifth = 0) {
        XEvent event{};
        event.xclient.type = ClientMessage;
        event.xclient.window = target_;
        event.xclient.message_type = atom(name);
        event.xclient.format = 32;
        event.xclient.data.l[0] = static_cast<long>(window_);
        event.xclient.data.l[1] = second;
        event.xclient.data.l[2] = third;
        event.xclient.data.l[3] = fourth;
        event.xclient.data.l[4] = fifth;
        XSendEvent(display_.get(), target_, False, NoEventMask, &event);
        XFlush(display_.get());
    }

    /// Hands over what was dragged.
    void answer(const XSelectionRequestEvent& asked, const std::string& text) {
        XChangeProperty(display_.get(), asked.requestor, asked.property, asked.target, 8, PropModeReplace,
                        reinterpret_cast<const unsigned char*>(text.data()), static_cast<int>(text.size()));
        XEvent event{};
        event.xselection.type = SelectionNotify;
        event.xselection.requestor = asked.requestor;
        event.xselection.selection = asked.selection;
        event.xselection.target = asked.target;
        event.xselection.property = asked.property;
        event.xselection.time = asked.time;
        XSendEvent(display_.get(), asked.requestor, False, NoEventMask, &event);
        XFlush(display_.get());
    }

    bool wait_for(const std::function<bool(const XEvent&)>& is_it) {
        const auto end = std::chrono::steady_clock::now() + longest_wait;
        while (std::chrono::steady_clock::now() < end) {
            if (XPending(display_.get()) == 0) {
                std::this_thread::sleep_for(10ms);
                continue;
            }
            XEvent event;
            XNextEvent(display_.get(), &event);
            if (is_it(event)) return true;
        }
        return false;
    }

    std::unique_ptr<Display, CloseDisplay> display_;
    Window window_ = None;
    Window target_ = None;
};

}  // namespace

bool drop_file(const std::string& display, const std::string& title, const std::string& file) {
    return Source(display).drop(title, uri_of(file));
}

}  // namespace footing::test
