// A JSON object written straight into a text, byte for byte as `written` writes it: for rows of
// lists as long as the group's fields, which as JSON values would be built of many small pieces and
// taken apart again. Members stand in the order in which they are added; their names are plain
// ASCII.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace wheyfield::api {

class RowText {
 public:
  // Opens the object at the end of `out`, which must outlive it; its end closes the object.
  explicit RowText(std::string& out) : out_(out) { out_ += '{'; }
  ~RowText() { out_ += '}'; }
  RowText(const RowText&) = delete;
  RowText& operator=(const RowText&) = delete;

  RowText& text(const char* name, std::string_view value);
  RowText& text_or_null(const char* name, const std::optional<std::string>& value);
  RowText& number(const char* name, double value);
  RowText& number_or_null(const char* name, const std::optional<double>& value);
  RowText& whole(const char* name, std::int64_t value);
  RowText& flag(const char* name, bool value);
  RowText& texts(const char* name, const std::vector<std::string>& values);

  // `fill(RowText&)` adds the members of the object.
  template <class Fill>
  RowText& object(const char* name, Fill fill) {
    key(name);
    RowText inner(out_);
    fill(inner);
    return *this;
  }
  // `fill(RowText&, item)` adds the members of the object of each item.
  template <class Items, class Fill>
  RowText& list(const char* name, const Items& items, Fill fill);

 private:
  void key(const char* name);

  std::string& out_;
  bool first_ = true;
};

// An object for each item, as an array at the end of `out`.
template <class Items, class Fill>
void append_rows(std::string& out, const Items& items, Fill fill) {
  out += '[';
  bool first = true;
  for (const auto& item : items) {
    if (!first) out += ',';
    first = false;
    RowText row(out);
    fill(row, item);
  }
  out += ']';
}

template <class Items, class Fill>
RowText& RowText::list(const char* name, const Items& items, Fill fill) {
  key(name);
  append_rows(out_, items, fill);
  return *this;
}

}  // namespace wheyfield::api
