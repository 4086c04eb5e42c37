// Notes leave for a colleague and come in from one. The host packs and unpacks the bytes between
// the two steps of each way; bytes are base64 here.
#include <algorithm>
#include <set>

#include "api/journal_answer.h"
#include "api/recorder.h"
#include "journal/base64.h"
#include "journal/crc32.h"
#include "journal/packed_notes.h"
#include "journal/team_file.h"

namespace wheyfield::api {
namespace {

using journal::Event;
using nlohmann::json;
using outcome::failure;
using outcome::Problems;
using outcome::Result;

const Fields pack_fields{"JournalPack", {{"names", Holds::flag, false}}};
const Fields compose_fields{"JournalCompose",
                            {{"lines", Holds::texts, true},
                             {"count", Holds::number, true},
                             {"crc", Holds::text, true},
                             {"packed", Holds::text, true}}};
const Fields split_fields{"JournalSplit", {{"file", Holds::text, true}}};
const Fields unpack_fields{
    "JournalUnpack",
    {{"count", Holds::number, true}, {"crc", Holds::text, true}, {"text", Holds::text, true}}};

// Lines for people: what this is, from which devices and days, and how to take it in.
std::vector<std::string> lines_for_people(const Session& session,
                                          const std::vector<const Event*>& events, bool names) {
  const words::Catalogue& w = session.words;
  std::set<std::string> devices;
  for (const Event* event : events) devices.insert(event->id.device);
  std::string list;
  for (const std::string& device : devices) list += (list.empty() ? "" : ", ") + device;
  const auto [first, last] = std::minmax_element(
      events.begin(), events.end(), [](const Event* a, const Event* b) { return a->on < b->on; });
  return {w.text("team-file.what", {{"n", events.size()},
                                    {"devices", list},
                                    {"first", w.long_date((*first)->on)},
                                    {"last", w.long_date((*last)->on)}}),
          w.text(names ? "team-file.names-in" : "team-file.names-out"), w.text("team-file.how-to"),
          w.text("team-file.trust")};
}

std::string hex(std::uint32_t crc) {
  constexpr char digits[] = "0123456789abcdef";
  std::string text(8, '0');
  for (std::size_t i = 8; i > 0; --i, crc >>= 4) text[i - 1] = digits[crc & 15U];
  return text;
}

std::optional<std::uint32_t> from_hex(const std::string& text) {
  std::uint32_t crc = 0;
  if (text.size() != 8) return std::nullopt;
  for (const char c : text) {
    const bool digit = c >= '0' && c <= '9';
    if (!digit && !(c >= 'a' && c <= 'f')) return std::nullopt;
    crc = crc << 4 | static_cast<std::uint32_t>(digit ? c - '0' : c - 'a' + 10);
  }
  return crc;
}

// The members count and crc of a request; a problem when one cannot be read.
journal::TeamFilePart part_of(const FieldReader& r) {
  journal::TeamFilePart part;
  part.count = static_cast<std::size_t>(r.count("count").value_or(0));
  const std::string text = r.text("crc").value_or("");
  const auto crc = from_hex(text);
  if (!crc) r.add("crc-unreadable", "crc", text);
  part.crc = crc.value_or(0);
  return part;
}

}  // namespace

const Fields& journal_pack_fields() { return pack_fields; }
const Fields& journal_compose_fields() { return compose_fields; }
const Fields& journal_split_fields() { return split_fields; }
const Fields& journal_unpack_fields() { return unpack_fields; }

Result<Answer> journal_pack(const Session& session, const json& body) {
  Problems problems = check_shape(body, pack_fields, "");
  if (!problems.empty()) return failure(std::move(problems));
  const bool names = body.value("names", false);
  std::vector<const Event*> events;
  for (const Event* event : session.events.in_order())
    if (names || event->kind != "name") events.push_back(event);
  if (events.empty()) return failure({"nothing-recorded", "", "", {}});
  const std::string text = journal::pack(events);
  Answer answer;
  answer.fields["remarks"] = Json::array();
  for (const Event* event : events)
    if (const std::string said = remark_in(*event); !said.empty())
      answer.fields["remarks"].push_back({{"id", event->id.text()}, {"says", said}});
  answer.fields["lines"] = lines_for_people(session, events, names);
  answer.fields["count"] = events.size();
  answer.fields["crc"] = hex(journal::crc32_of(text));
  answer.fields["text"] = text;
  return answer;
}

Result<Answer> journal_compose(const Session& session, const json& body) {
  Problems problems = check_shape(body, compose_fields, "");
  if (!problems.empty()) return failure(std::move(problems));
  const FieldReader r(body, "", session.data.units(), problems);
  journal::TeamFilePart part = part_of(r);
  const auto bytes = journal::from_base64(body["packed"].get_ref<const std::string&>());
  if (!bytes) r.add("base64-unreadable", "packed", "");
  if (!problems.empty()) return failure(std::move(problems));
  part.bytes = *bytes;
  Answer answer;
  answer.fields["file"] = journal::compose(r.texts("lines"), part);
  return answer;
}

Result<Answer> journal_split(const Session&, const json& body) {
  Problems problems = check_shape(body, split_fields, "");
  if (!problems.empty()) return failure(std::move(problems));
  const auto part = journal::split(body["file"].get_ref<const std::string&>());
  if (!part) return failure(part.error());
  Answer answer;
  answer.fields["count"] = part->count;
  answer.fields["crc"] = hex(part->crc);
  answer.fields["packed"] = journal::to_base64(part->bytes);
  return answer;
}

Result<Answer> journal_unpack(const Session& session, const json& body) {
  Problems problems = check_shape(body, unpack_fields, "");
  if (!problems.empty()) return failure(std::move(problems));
  const FieldReader r(body, "", session.data.units(), problems);
  const journal::TeamFilePart part = part_of(r);
  if (!problems.empty()) return failure(std::move(problems));
  const auto events = journal::check(part, body["text"].get_ref<const std::string&>());
  if (!events) return failure(events.error());
  Answer answer;
  answer.fields["events"] = Json::array();
  for (const Event& event : *events) answer.fields["events"].push_back(event_json(event));
  return answer;
}

}  // namespace wheyfield::api
