// core.wasm: the facade behind three C functions. One module instance is one session.
//
// Call the exported `_initialize` once before anything else. Texts are UTF-8 ended by a zero byte
// and live in the module's memory:
//   in   core_alloc(bytes including the zero), write the text, call, then core_free it;
//   out  core_call returns a new text; read it up to the zero, then core_free it.
// Look the memory buffer up again after each call: it moves when the memory grows.
// core_alloc and core_call return 0 when there is no memory left.
#include <cstddef>
#include <cstdlib>
#include <cstring>
#include <string>

#include "api/core.h"

namespace {

wheyfield::api::Core& session() {
  static wheyfield::api::Core core;
  return core;
}

char* copy_out(const std::string& text) {
  char* copy = static_cast<char*>(std::malloc(text.size() + 1));
  if (copy != nullptr) std::memcpy(copy, text.c_str(), text.size() + 1);
  return copy;
}

}  // namespace

extern "C" {

void* core_alloc(std::size_t bytes) { return std::malloc(bytes); }

void core_free(void* text) { std::free(text); }

char* core_call(const char* name, const char* json) { return copy_out(session().call(name, json)); }

}  // extern "C"
