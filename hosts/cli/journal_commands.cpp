// What is said to the journal and read from it at this machine.
#include <algorithm>

#include "cli/commands.h"
#include "cli/journal_desk.h"

namespace wheyfield::cli {
namespace {

using nlohmann::json;
using nlohmann::ordered_json;

// "cap=5 mL" -> {"cap": "5 mL"}; a list where the member is named again.
Reading<json> members_of(const std::vector<std::string>& given) {
  json body = json::object();
  InputProblems problems;
  for (const std::string& one : given) {
    const std::size_t sign = one.find('=');
    if (sign == std::string::npos || sign == 0) {
      problems.push_back({"member-unreadable", {}, "", one, {}, exit_codes::wrong_use});
      continue;
    }
    json& member = body[one.substr(0, sign)];
    const std::string value = one.substr(sign + 1);
    if (member.is_null())
      member = value;
    else if (member.is_array())
      member.push_back(value);
    else
      member = json::array({member, value});
  }
  if (!problems.empty()) return tl::make_unexpected(std::move(problems));
  return body;
}

// Says what was written down, as a sentence, and where the file is.
int say(Host& host, JournalDesk& desk, const std::string& action, json body,
        const std::string& next, const Document& asked = Document()) {
  if (const auto failed = desk.open(JournalDesk::Missing::make)) return *failed;
  const ordered_json answer = desk.say(action, std::move(body));
  if (desk.failed()) return *desk.failed();
  const int code = exit_code_of(answer);
  if (host.arguments.json || code != exit_codes::fine) return host.show(answer, asked);
  for (const ordered_json& note : answer["noted"])
    host.streams.out << host.words.text(
                            host.arguments.dry_run ? "cli.journal.would-note" : "cli.journal.noted",
                            {{"id", note["id"].get<std::string>()},
                             {"kind",
                              host.words.text("event.kind." + note["kind"].get<std::string>())},
                             {"says", note["says"].get<std::string>()}})
                     << "\n";
  host.show_problems(answer, asked, Notes::all);
  if (!host.arguments.dry_run) host.remark(host.words.text(next));
  return code;
}

int ask(Host& host, const std::string& action, json body, int when_asked) {
  JournalDesk desk(host);
  if (const auto failed = desk.open(JournalDesk::Missing::refuse)) return *failed;
  if (!host.arguments.json) body["pages"] = true;
  const ordered_json answer = host.ask(action, std::move(body));
  const int code = host.show(answer, Document());
  const bool open = answer.contains("questions") && answer["questions"].is_array() &&
                    !answer["questions"].empty();
  return code == exit_codes::fine && open ? when_asked : code;
}

}  // namespace

int journal_add(Host& host) {
  const JournalArguments& given = host.arguments.note;
  Reading<json> members = members_of(given.members);
  if (!members) return host.refuse(members.error());
  // The parts of a note are named as they were typed, not as flags.
  const Document asked{*members, SourceMap(), true, "/body"};
  json body = {{"kind", given.kind}, {"body", *members}};
  if (!given.day.empty()) body["on"] = given.day;
  if (!given.replaces.empty()) body["replaces"] = given.replaces;
  JournalDesk desk(host);
  return say(host, desk, "journal.add", std::move(body), "cli.next.journal-list", asked);
}

int journal_strike(Host& host) {
  json body = {{"events", host.arguments.note.notes}};
  if (!host.arguments.note.why.empty()) body["why"] = host.arguments.note.why;
  JournalDesk desk(host);
  return say(host, desk, "journal.strike", std::move(body), "cli.next.journal-list");
}

int journal_answer(Host& host) {
  JournalDesk desk(host);
  return say(host, desk, "journal.answer",
             {{"question", host.arguments.note.question}, {"take", host.arguments.note.take}},
             "cli.next.journal-questions");
}

int journal_lost(Host& host) {
  json body = {{"lost", host.arguments.note.lost}};
  if (!host.arguments.note.last_note.empty()) body["last_note"] = host.arguments.note.last_note;
  JournalDesk desk(host);
  return say(host, desk, "journal.lost", std::move(body), "cli.next.journal-send");
}

// Cannot be taken back: without --yes it is only said what would go.
int journal_forget(Host& host) {
  const json body = {{"member", host.arguments.note.member}};
  JournalDesk desk(host);
  if (host.arguments.yes)
    return say(host, desk, "journal.forget", body, "cli.next.journal-forgotten");
  if (const auto failed = desk.open(JournalDesk::Missing::refuse)) return *failed;
  const auto ours = desk.signed_by_us(body);
  if (!ours) return *desk.failed();
  const ordered_json answer = host.ask("journal.forget", *ours);
  if (host.arguments.json || !answer.contains("text")) return host.show(answer, Document());
  host.streams.out << answer["text"].get<std::string>() << "\n";
  show_remarks(host, answer, "cli.journal.remarks-name-her");
  host.streams.err << host.words.text("cli.journal.forget-sure") << "\n";
  return exit_codes::question;
}

int journal_list(Host& host) {
  json body = json::object();
  if (!host.arguments.note.kind.empty()) body["kind"] = host.arguments.note.kind;
  if (!host.arguments.note.about.empty()) body["about"] = host.arguments.note.about;
  if (!host.arguments.note.last.empty()) body["last"] = host.arguments.note.last;
  return ask(host, "journal.list", std::move(body), exit_codes::fine);
}

int journal_questions(Host& host) {
  const int code = ask(host, "journal.questions", json::object(), exit_codes::question);
  if (code == exit_codes::question) host.remark(host.words.text("cli.next.journal-answer"));
  return code;
}

int journal_verify(Host& host) {
  JournalDesk desk(host);
  if (const auto failed = desk.open(JournalDesk::Missing::refuse)) return *failed;
  const int store = desk.verify();
  if (desk.failed()) return store;
  json body = {{"clock", host.surroundings().clock}};
  if (!host.arguments.json) body["pages"] = true;
  return std::max(store, host.show(host.ask("journal.verify", std::move(body)), Document()));
}

}  // namespace wheyfield::cli
