// The pages of the group, from the file of notes.
#include "cli/commands.h"
#include "cli/journal_desk.h"

namespace wheyfield::cli {
namespace {

int show_group_page(Host& host, const std::string& action, nlohmann::json body) {
  JournalDesk desk(host);
  if (const auto failed = desk.open(JournalDesk::Missing::refuse)) return *failed;
  if (!host.arguments.json) body["pages"] = true;
  return host.show(host.ask(action, std::move(body)), Document());
}

}  // namespace

int group_meeting(Host& host) {
  nlohmann::json body = nlohmann::json::object();
  if (!host.arguments.note.day.empty()) body["on"] = host.arguments.note.day;
  return show_group_page(host, "group.meeting", std::move(body));
}

int group_members(Host& host) {
  return show_group_page(host, "group.members", nlohmann::json::object());
}

}  // namespace wheyfield::cli
