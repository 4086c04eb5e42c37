#include "cli/help.h"

#include <algorithm>
#include <utility>
#include <vector>

#include "cli/page_printer.h"
#include "cli/utf8.h"

namespace wheyfield::cli {
namespace {

using Entries = std::vector<std::pair<std::string, std::string>>;  // what, about

std::string entries_text(const Entries& entries) {
  std::size_t widest = 0;
  for (const auto& [what, about] : entries) widest = std::max(widest, width(what));
  const std::string rest(widest + 4, ' ');
  std::string out;
  for (const auto& [what, about] : entries)
    out += wrapped(about, usual_columns, "  " + what + std::string(widest - width(what) + 2, ' '),
                   rest);
  return out;
}

std::string shown_option(const CLI::Option& option) {
  const std::string type = option.get_type_name();
  return option.get_name(false, true) + (type.empty() ? "" : " " + type);
}

std::string indented(const std::string& text) {
  std::string out;
  for (std::size_t start = 0; start < text.size();) {
    const std::size_t end = std::min(text.find('\n', start), text.size());
    out += "  " + text.substr(start, end - start) + "\n";
    start = end + 1;
  }
  return out;
}

std::string program_path(const CLI::App& app) {
  const CLI::App* parent = app.get_parent();
  return (parent == nullptr ? "" : program_path(*parent) + " ") + app.get_name();
}

}  // namespace

std::string path_key(const CLI::App& app) {
  const CLI::App* parent = app.get_parent();
  if (parent == nullptr) return "root";
  const std::string above = path_key(*parent);
  return above == "root" ? app.get_name() : above + "-" + app.get_name();
}

std::string Help::make_help(const CLI::App* app, std::string, CLI::AppFormatMode) const {
  const std::string key = path_key(*app);
  std::string out = words_.text("cli.help.examples") + "\n" +
                    indented(words_.text("cli.examples." + key)) + "\n" + usage(*app) + "\n" +
                    wrapped(words_.text("cli.about." + key), usual_columns);
  const std::string inner = commands(*app);
  if (!inner.empty()) out += "\n" + words_.text("cli.help.commands") + "\n" + inner;
  out += "\n" + words_.text("cli.help.options") + "\n" + options(*app);
  out += "\n" + words_.text("cli.help.exit-codes") + "\n" + indented(words_.text("cli.exit-codes"));
  return out;
}

std::string Help::usage(const CLI::App& app) const {
  std::string words = program_path(app);
  for (const CLI::Option* option : app.get_options())
    if (option->get_positional()) words += " " + option->get_name(true);
  const std::string key = app.get_subcommands([](const CLI::App*) { return true; }).empty()
                              ? "cli.help.usage"
                              : "cli.help.usage-inner";
  return words_.text(key, {{"command", words}}) + "\n";
}

std::string Help::commands(const CLI::App& app) const {
  Entries entries;
  for (const CLI::App* inner : app.get_subcommands([](const CLI::App*) { return true; })) {
    const auto verbs = inner->get_subcommands([](const CLI::App*) { return true; });
    if (verbs.empty()) entries.emplace_back(inner->get_name(), inner->get_description());
    for (const CLI::App* verb : verbs)
      entries.emplace_back(inner->get_name() + " " + verb->get_name(), verb->get_description());
  }
  return entries_text(entries);
}

std::string Help::options(const CLI::App& app) const {
  Entries entries;
  for (const CLI::App* at = &app; at != nullptr; at = at->get_parent())
    for (const CLI::Option* option : at->get_options()) {
      const bool help_again = at != &app && option == at->get_help_ptr();
      if (help_again) continue;
      entries.emplace_back(
          option->get_positional() ? option->get_name(true) : shown_option(*option),
          option->get_description());
    }
  return entries_text(entries);
}

}  // namespace wheyfield::cli
