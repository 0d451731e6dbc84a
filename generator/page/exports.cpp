// The door of the WebAssembly: two functions that take and give texts.

#include <emscripten.h>

#include <memory>
#include <string>

#include "page/core.hpp"

namespace {

std::unique_ptr<footroom::page::Core> core;
std::string reply;  // stands until the next call

}  // namespace

extern "C" {

/// Takes the page's data once. Returns what is wrong, or an empty text.
EMSCRIPTEN_KEEPALIVE const char* footroom_start(const char* data) {
  try {
    core = std::make_unique<footroom::page::Core>(data);
    reply.clear();
  } catch (const std::exception& fault) {
    reply = fault.what();
  }
  return reply.c_str();
}

EMSCRIPTEN_KEEPALIVE const char* footroom_ask(const char* request) {
  reply = core->ask(request);
  return reply.c_str();
}
}
