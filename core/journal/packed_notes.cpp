#include "journal/packed_notes.h"

#include <algorithm>
#include <map>

#include "journal/notes_layout.h"

namespace wheyfield::journal {
namespace {

using nlohmann::json;

void append_number(std::string& column, std::int64_t number) {
  if (!column.empty()) column += ' ';
  column += std::to_string(number);
}

// Sorted by device and counter, which makes nearly every counter step 1.
std::vector<const Event*> by_device(std::vector<const Event*> events) {
  std::sort(events.begin(), events.end(), [](const Event* a, const Event* b) {
    return a->id == b->id ? line_of(*a) < line_of(*b) : a->id < b->id;
  });
  return events;
}

class NotesPacker {
 public:
  void add(const Event& event) {
    device_and_counter(event.id);
    append_number(at_, event.at.seconds - seconds_);
    seconds_ = event.at.seconds;
    append_number(count_, event.at.count);
    append_number(on_, event.on.days() - wall_clock_day(event.at.seconds, event.utc_offset_min));
    append_number(utc_, event.utc_offset_min);
    const std::size_t shape = shape_of(event);
    append_number(shape_, static_cast<std::int64_t>(shape));
    fill(shapes_[shape], event);
  }

  std::string text() && {
    return json{{"devices", std::move(devices_)}, {"counter", std::move(counter_)},
                {"at", std::move(at_)},           {"count", std::move(count_)},
                {"on", std::move(on_)},           {"utc", std::move(utc_)},
                {"shape", std::move(shape_)},     {"shapes", std::move(shapes_)}}
        .dump();
  }

 private:
  void device_and_counter(const EventId& id) {
    if (devices_.empty() || devices_.back()[0] != id.device) {
      devices_.push_back({id.device, 0});
      last_counter_ = 0;
    }
    json& events = devices_.back()[1];
    events = events.get<std::int64_t>() + 1;
    append_number(counter_, id.counter - last_counter_);
    last_counter_ = id.counter;
  }

  std::size_t shape_of(const Event& event) {
    json shape{{"kind", event.kind}, {"v", event.version}};
    if (!event.replaces.empty()) shape["replaces"] = json::array();
    if (fits_columns(event.body)) {
      shape["body"] = json::object();
      for (const auto& [name, value] : event.body.items()) shape["body"][name] = json::array();
    } else {
      shape["bodies"] = json::array();
    }
    const auto [known, fresh] = numbers_.try_emplace(shape.dump(), shapes_.size());
    if (fresh) shapes_.push_back(std::move(shape));
    return known->second;
  }

  static void fill(json& shape, const Event& event) {
    if (!event.replaces.empty()) {
      json ids = json::array();
      for (const EventId& id : event.replaces) ids.push_back(id.text());
      shape["replaces"].push_back(std::move(ids));
    }
    if (shape.contains("bodies")) {
      shape["bodies"].push_back(event.body);
      return;
    }
    for (const auto& [name, value] : event.body.items()) shape["body"][name].push_back(value);
  }

  json devices_ = json::array();
  json shapes_ = json::array();
  std::map<std::string, std::size_t> numbers_;
  std::string counter_, at_, count_, on_, utc_, shape_;
  std::int64_t last_counter_ = 0;
  std::int64_t seconds_ = 0;
};

}  // namespace

std::string pack(const std::vector<const Event*>& events) {
  NotesPacker packer;
  for (const Event* event : by_device(events)) packer.add(*event);
  return std::move(packer).text();
}

}  // namespace wheyfield::journal
