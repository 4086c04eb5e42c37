#include "journal/event.h"

#include <algorithm>
#include <array>
#include <optional>

#include "journal/nesting.h"

namespace wheyfield::journal {
namespace {

using nlohmann::json;
using outcome::failure;
using outcome::Problem;
using outcome::Result;

constexpr std::int64_t largest_whole = std::int64_t{1} << 53;
constexpr std::int64_t largest_seconds = std::int64_t{1} << 40;
constexpr int deepest = 16;
// Beyond this a line is not read at all; up to it, what is too deep is named.
constexpr int most_brackets = 100;

std::optional<std::int64_t> whole(const json& value) {
  if (value.is_number_unsigned()) {
    const auto number = value.get<std::uint64_t>();
    if (number <= static_cast<std::uint64_t>(largest_whole))
      return static_cast<std::int64_t>(number);
  } else if (value.is_number_integer()) {
    const auto number = value.get<std::int64_t>();
    if (number >= -largest_whole) return number;
  }
  return std::nullopt;
}

std::optional<std::int64_t> whole_within(const json& value, std::int64_t low, std::int64_t high) {
  const auto number = whole(value);
  return number && *number >= low && *number <= high ? number : std::nullopt;
}

bool is_kind_name(std::string_view text) {
  return !text.empty() && text.size() <= 32 && std::all_of(text.begin(), text.end(), [](char c) {
    return (c >= 'a' && c <= 'z') || c == '-';
  });
}

// The first thing in a body that a line cannot carry there and back.
std::optional<Problem> not_carried(const json& value, const std::string& pointer, int depth) {
  if (depth > deepest) return Problem{"event-too-deep", pointer, "", {}};
  if (value.is_number() && !whole(value))
    return Problem{"event-number-not-whole", pointer, value.dump(), {}};
  if (!value.is_structured()) return std::nullopt;
  for (const auto& [name, inner] : value.items())
    if (auto problem = not_carried(inner, pointer + "/" + name, depth + 1)) return problem;
  return std::nullopt;
}

constexpr std::array<std::string_view, 8> member_names{"id",   "at", "on",       "utc",
                                                       "kind", "v",  "replaces", "body"};

// Reads the members one by one; the first problem ends it.
class EventReader {
 public:
  explicit EventReader(json object) : object_(std::move(object)) {}

  Result<Event> read() {
    if (!object_.is_object()) return failure(Problem{"event-not-object", "", "", {}});
    for (const auto& [name, value] : object_.items())
      if (std::find(member_names.begin(), member_names.end(), name) == member_names.end())
        return failure(Problem{"event-member-unknown", "/" + name, "", {{"member", name}}});
    for (const std::string_view name : member_names)
      if (name != "replaces" && !object_.contains(name))
        return failure(Problem{
            "event-member-missing", "/" + std::string(name), "", {{"member", std::string(name)}}});
    if (!(id() && stamp() && day() && offset() && kind() && version() && replaces() && body()))
      return failure(std::move(problem_));
    return std::move(event_);
  }

 private:
  bool bad(const char* code, const std::string& name) {
    problem_ = {code, "/" + name, object_[name].dump(), {}};
    return false;
  }
  std::string text(const char* name) const {
    return object_[name].is_string() ? object_[name].get<std::string>() : std::string();
  }

  bool id() {
    auto id = parse_event_id(text("id"));
    if (!id) return bad("event-id-unreadable", "id");
    event_.id = std::move(*id);
    return true;
  }
  bool stamp() {
    const json& at = object_["at"];
    if (!at.is_array() || at.size() != 2) return bad("event-stamp-unreadable", "at");
    const auto seconds = whole_within(at[0], 0, largest_seconds);
    const auto count = whole_within(at[1], 0, largest_count);
    if (!seconds || !count) return bad("event-stamp-unreadable", "at");
    event_.at = {*seconds, static_cast<std::int32_t>(*count)};
    return true;
  }
  bool day() {
    const auto date = calendar::parse_date(text("on"));
    if (!date) {
      problem_ = outcome::under("/on", date.error()).front();
      return false;
    }
    event_.on = *date;
    return true;
  }
  bool offset() {
    const auto minutes = whole_within(object_["utc"], -720, 840);
    if (!minutes) return bad("event-offset-out-of-range", "utc");
    event_.utc_offset_min = static_cast<int>(*minutes);
    return true;
  }
  bool kind() {
    event_.kind = text("kind");
    return is_kind_name(event_.kind) || bad("event-kind-unreadable", "kind");
  }
  bool version() {
    const auto number = whole_within(object_["v"], 1, 999);
    if (!number) return bad("event-version-unreadable", "v");
    event_.version = static_cast<int>(*number);
    return true;
  }
  bool replaces() {
    const auto list = object_.find("replaces");
    if (list == object_.end()) return true;
    if (!list->is_array() || list->empty()) return bad("event-id-unreadable", "replaces");
    for (const json& one : *list) {
      auto id = one.is_string() ? parse_event_id(one.get<std::string>())
                                : Result<EventId>(failure(Problem{}));
      if (!id) return bad("event-id-unreadable", "replaces");
      event_.replaces.push_back(std::move(*id));
    }
    return true;
  }
  bool body() {
    json& body = object_["body"];
    if (!body.is_object() && !body.is_null()) return bad("event-body-not-object", "body");
    if (auto problem = not_carried(body, "/body", 0)) {
      problem_ = std::move(*problem);
      return false;
    }
    event_.body = std::move(body);
    return true;
  }

  json object_;
  Event event_;
  Problem problem_;
};

}  // namespace

std::string EventId::text() const { return device + "-" + std::to_string(counter); }

bool is_device_code(std::string_view text) {
  return !text.empty() && text.size() <= 8 && std::all_of(text.begin(), text.end(), [](char c) {
    return (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9');
  });
}

Result<EventId> parse_event_id(std::string_view text) {
  const std::size_t dash = text.find('-');
  const std::string_view digits = dash == text.npos ? "" : text.substr(dash + 1);
  const bool good =
      is_device_code(text.substr(0, dash)) && !digits.empty() && digits.size() <= 16 &&
      digits.front() != '0' &&
      std::all_of(digits.begin(), digits.end(), [](char c) { return c >= '0' && c <= '9'; });
  std::int64_t counter = 0;
  if (good)
    for (const char digit : digits) counter = counter * 10 + (digit - '0');
  if (!good || counter > largest_whole)
    return failure(Problem{"event-id-unreadable", "", std::string(text), {}});
  return EventId{std::string(text.substr(0, dash)), counter};
}

bool comes_before(const Event& a, const Event& b) {
  if (!(a.at == b.at)) return a.at < b.at;
  if (!(a.id == b.id)) return a.id < b.id;
  return &a != &b && line_of(a) < line_of(b);
}

std::string line_of(const Event& event) {
  std::string line = R"({"id":")" + event.id.text() + R"(","at":[)" +
                     std::to_string(event.at.seconds) + "," + std::to_string(event.at.count) +
                     R"(],"on":")" + event.on.iso() + R"(","utc":)" +
                     std::to_string(event.utc_offset_min) + R"(,"kind":")" + event.kind +
                     R"(","v":)" + std::to_string(event.version);
  if (!event.replaces.empty()) {
    line += R"(,"replaces":[)";
    for (const EventId& id : event.replaces)
      line += (line.back() == '[' ? "\"" : ",\"") + id.text() + "\"";
    line += "]";
  }
  return line + R"(,"body":)" + event.body.dump() + "}";
}

Event head_of(Event event) {
  event.body = nullptr;
  return event;
}

Result<Event> event_of(json object) { return EventReader(std::move(object)).read(); }

Result<Event> parse_event(std::string_view line) {
  if (deeper_than(line, most_brackets)) return failure(Problem{"event-too-deep", "", "", {}});
  json object = json::parse(line, nullptr, false);
  if (object.is_discarded())
    return failure(Problem{"json-unreadable", "", std::string(line.substr(0, 60)), {}});
  return event_of(std::move(object));
}

}  // namespace wheyfield::journal
