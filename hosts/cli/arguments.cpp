#include "cli/arguments.h"

#include <algorithm>
#include <functional>
#include <set>

#include <CLI/CLI.hpp>

#include "api/fields.h"
#include "calendar/date.h"
#include "cli/exit_codes.h"
#include "cli/help.h"

namespace wheyfield::cli {
namespace {

std::string option_of(std::string_view field) {
  std::string name(field);
  std::replace(name.begin(), name.end(), '_', '-');
  return name;
}

std::string command_of(const CLI::App& app) {
  std::string command;
  for (const CLI::App* at = &app;;) {
    const auto chosen = at->get_subcommands();
    if (chosen.empty()) return command;
    at = chosen.back();
    command += (command.empty() ? "" : " ") + at->get_name();
  }
}

const CLI::App& deepest(const CLI::App& app) {
  const CLI::App* at = &app;
  while (!at->get_subcommands().empty()) at = at->get_subcommands().back();
  return *at;
}

// Declares every command and flag; descriptions come from the words.
class CommandLine {
 public:
  CommandLine(const words::Catalogue& words, Arguments& arguments)
      : words_(words), to_(arguments), app_("", "wheyfield") {
    app_.formatter(std::make_shared<Help>(words));
    app_.set_help_flag("-h,--help", words.text("cli.option.help"));
    app_.require_subcommand(0, 1);
    common();
    season();
    programme();
    crop();
    dose();
    nutrients();
    batch();
    compost();
    recipe();
    journal();
    group();
    verb(app_, "schema");
    CLI::App& call = verb(app_, "call");
    file(call);
  }

  CLI::App& app() { return app_; }

 private:
  void common() {
    flag(app_, "--json", to_.json);
    option(app_, "--date", to_.date);
    app_.add_option("--seed", to_.seed, words_.text("cli.option.seed"))
        ->type_name(words_.text("cli.value.seed"));
    option(app_, "--lang", to_.language);
    option(app_, "--journal", to_.journal);
    option(app_, "--device", to_.device);
    flag(app_, "--quiet", to_.quiet);
  }

  void season() {
    CLI::App& season = noun("season");
    CLI::App& plan = verb(season, "plan");
    file(plan, "season-file")->required(false);
    plan.add_option("--section", to_.sections, words_.text("cli.option.section"))
        ->type_name(words_.text("cli.value.section"))
        ->allow_extra_args(false);
    plan.add_option("--method", to_.plan_method, words_.text("cli.option.plan-method"));
    flag(plan, "--request", to_.request);
    file(verb(season, "check"), "season-file")->required(false);
    file(verb(season, "explain"), "season-file")->required(false);
    CLI::App& change = verb(season, "change");
    file(change, "season-file")->required(false);
    option(change, "--was", to_.was)->required();
    repeated(change, "--failed", to_.failed);
    option(change, "--change-on", to_.change_on);
    option(change, "--announced-until", to_.announced_until);
    CLI::App& risk = verb(season, "risk");
    file(risk, "season-file")->required(false);
    option(risk, "--seasons", to_.seasons);
    CLI::App& fresh = verb(season, "new");
    file(fresh);
    option(fresh, "--farms", to_.farms);
    flag(fresh, "--yes", to_.yes);
    flag(fresh, "--dry-run", to_.dry_run);
  }

  void programme() {
    CLI::App& plan = verb(noun("programme"), "plan");
    file(plan, "programme-folder");
    plan.add_option("--section", to_.sections, words_.text("cli.option.programme-section"))
        ->type_name(words_.text("cli.value.section"))
        ->allow_extra_args(false);
    plan.add_option("--method", to_.plan_method, words_.text("cli.option.programme-method"));
    plan.add_option("--threads", to_.threads, words_.text("cli.option.threads"))
        ->type_name(words_.text("cli.value.seed"));
  }

  void crop() {
    CLI::App& crop = noun("crop");
    CropArguments& to = to_.planting;
    CLI::App& windows = verb(crop, "windows");
    option(windows, "--crop", to.crop)->required();
    option(windows, "--sowing", to.sowing);
    option(windows, "--sown-on", to.sown_on);
    option(windows, "--nursery-on", to.nursery_on);
    option(windows, "--seed-is", to.seed);
    option(windows, "--harvest-after", to.harvest_after);
    option(windows, "--own-count", to.own_count);
    windows.add_option("--seen", to.seen, words_.text("cli.option.seen"))
        ->type_name(words_.text("cli.value.seen"))
        ->allow_extra_args(false);
    option(windows, "--temperatures", to.temperatures);
    option(windows, "--months", to.months);
    option(windows, "--station", to.station);
    option(windows, "--altitude", to.altitude);
    CLI::App& onset = verb(crop, "onset");
    option(onset, "--rain", to.rain)->required();
    option(onset, "--rule", to.rule)->required();
    option(onset, "--earliest", to.earliest)->required();
    verb(crop, "list");
  }

  void dose() {
    CLI::App& dose = noun("dose");
    for (const char* name : {"mix", "sprayer", "bucket", "area", "soak", "harvest", "plot"})
      fields(verb(dose, name), *api::fields_of(std::string("dose.") + name));
  }

  void nutrients() {
    fields(verb(noun("nutrients"), "balance"), *api::fields_of("nutrients.balance"));
  }

  void batch() {
    CLI::App& batch = noun("batch");
    CLI::App& forecast = verb(batch, "forecast");
    fields(forecast, *api::fields_of("batch.forecast"));
    option(forecast, "--svg", to_.svg);
    fields(verb(batch, "keep"), *api::fields_of("batch.keep"));
    CLI::App& show = verb(batch, "show");
    positional(show, "batch", to_.batch);
    option(show, "--svg", to_.svg);
    CLI::App& read = verb(batch, "read");
    flag(read, "--dry-run", to_.dry_run);
    positional(read, "batch", to_.batch);
    fields(read, *api::fields_of("batch.read"), {"batch", "device", "clock"});
  }

  void compost() {
    CLI::App& compost = noun("compost");
    CLI::App& mix = verb(compost, "mix");
    fields(mix, *api::fields_of("compost.mix"));
    option(mix, "--ingredients", to_.ingredients);
    fields(verb(compost, "turns"), *api::fields_of("compost.turns"));
    CLI::App& log = verb(compost, "log");
    file(log, "heap-file");
    fields(log, *api::fields_of("compost.log"));
    verb(compost, "list");
  }

  void recipe() {
    CLI::App& recipe = noun("recipe");
    verb(recipe, "list");
    CLI::App& show = verb(recipe, "show");
    positional(show, "id", to_.recipe);
    option(show, "--last-used", to_.last_used);
    option(show, "--local-days", to_.local_days);
    CLI::App& scale = verb(recipe, "scale");
    positional(scale, "id", to_.recipe);
    CLI::Option* make = option(scale, "--make", to_.make);
    option(scale, "--vessel", to_.vessel)->excludes(make);
    positional(verb(recipe, "check"), "id-or-file", to_.recipe);
  }

  void journal() {
    CLI::App& journal = noun("journal");
    JournalArguments& to = to_.note;
    CLI::App& add = verb(journal, "add");
    flag(add, "--dry-run", to_.dry_run);
    positional(add, "kind", to.kind);
    several(add, "members", to.members)->required(false);
    option(add, "--day", to.day);
    repeated(add, "--replaces", to.replaces);
    CLI::App& take = verb(journal, "take");
    file(take, "file-to-take");
    option(take, "--kind", to.kind);
    flag(take, "--yes", to_.yes);
    flag(take, "--dry-run", to_.dry_run);
    CLI::App& send = verb(journal, "send");
    file(send, "file-to-send");
    flag(send, "--names", to.names);
    flag(send, "--yes", to_.yes);
    CLI::App& list = verb(journal, "list");
    option(list, "--kind", to.kind);
    option(list, "--about", to.about);
    option(list, "--last", to.last);
    verb(journal, "questions");
    CLI::App& answer = verb(journal, "answer");
    flag(answer, "--dry-run", to_.dry_run);
    positional(answer, "question", to.question);
    positional(answer, "take", to.take);
    CLI::App& strike = verb(journal, "strike");
    flag(strike, "--dry-run", to_.dry_run);
    several(strike, "notes", to.notes);
    option(strike, "--why", to.why);
    CLI::App& forget = verb(journal, "forget");
    positional(forget, "member", to.member);
    flag(forget, "--yes", to_.yes);
    CLI::App& lost = verb(journal, "lost");
    flag(lost, "--dry-run", to_.dry_run);
    positional(lost, "lost", to.lost);
    option(lost, "--last-note", to.last_note);
    CLI::App& out = verb(journal, "export");
    file(out, "file-to-write");
    option(out, "--kind", to.kind);
    option(out, "--as", to.as)->check(CLI::IsMember({"plain", "spreadsheet", "season"}));
    flag(out, "--yes", to_.yes);
    verb(journal, "verify");
  }

  void group() {
    CLI::App& group = noun("group");
    positional(verb(group, "meeting"), "meeting-day", to_.note.day)->required(false);
    verb(group, "members");
  }

  // One option for each declared field but lists, which come from files, and those of `others`;
  // `pages` and `svg` are the host's own affair. With a farm of the journal, what is not given may
  // be known there: then only the core can say what is missing.
  void fields(CLI::App& app, const api::Fields& declared,
              const std::set<std::string_view>& others = {}) {
    const bool by_farm = std::any_of(declared.fields.begin(), declared.fields.end(),
                                     [](const api::Field& f) { return f.name == "farm"; });
    std::vector<const CLI::Option*> needed;
    for (const api::Field& field : declared.fields) {
      const bool hosts_own = field.name == "pages" || field.name == "svg";
      if (hosts_own || field.holds == api::Holds::list || others.count(field.name) != 0) continue;
      const std::string name = option_of(field.name);
      std::vector<std::string>& to = to_.fields[std::string(field.name)];
      const std::string about = words_.text(own_word(app, "cli.option.", name));
      if (field.holds == api::Holds::flag) {
        app.add_flag_callback(
            "--" + name, [&to] { to = {"true"}; }, about);
        continue;
      }
      CLI::Option* option =
          app.add_option("--" + name, to, about)->type_name(value_word(app, field));
      if (field.holds == api::Holds::texts)
        option->allow_extra_args(false);
      else
        option->expected(1);
      option->required(field.required && !by_farm);
      if (field.required && by_farm) needed.push_back(option);
    }
    if (by_farm) app.final_callback([this, needed] { want(needed); });
  }

  void want(const std::vector<const CLI::Option*>& needed) const {
    if (!to_.fields["farm"].empty()) return;
    for (const CLI::Option* option : needed)
      if (option->count() == 0) throw CLI::RequiredError(option->get_name());
  }

  // The key of a field's word: that of its command, where two commands mean different things.
  std::string own_word(const CLI::App& app, const std::string& before,
                       const std::string& name) const {
    const std::string of_command = before + path_key(app) + "." + name;
    return words_.has(of_command) ? of_command : before + name;
  }

  // What a field takes: a word of its own, its choices, or the word of its kind.
  std::string value_word(const CLI::App& app, const api::Field& field) const {
    const std::string own = own_word(app, "cli.value.", option_of(field.name));
    if (words_.has(own)) return words_.text(own);
    if (!field.choices.empty()) return std::string(field.choices);
    return words_.text("cli.value." + std::string(api::holds_name(field.holds)));
  }

  CLI::App& noun(const std::string& name) {
    CLI::App& made = verb(app_, name);
    made.require_subcommand(0, 1);
    return made;
  }

  CLI::App& verb(CLI::App& parent, const std::string& name) {
    CLI::App* made = parent.add_subcommand(name);
    made->fallthrough();
    made->description(words_.text("cli.about." + path_key(*made)));
    return *made;
  }

  CLI::Option* option(CLI::App& app, const std::string& name, std::string& to) {
    return app.add_option(name, to, words_.text("cli.option." + name.substr(2)))
        ->type_name(words_.text("cli.value." + name.substr(2)));
  }

  void flag(CLI::App& app, const std::string& name, bool& to) {
    app.add_flag(name, to, words_.text("cli.option." + name.substr(2)));
  }

  // An option that is given again for each value.
  void repeated(CLI::App& app, const std::string& name, std::vector<std::string>& to) {
    app.add_option(name, to, words_.text("cli.option." + name.substr(2)))
        ->type_name(words_.text("cli.value." + name.substr(2)))
        ->allow_extra_args(false);
  }

  CLI::Option* positional(CLI::App& app, const std::string& name, std::string& to) {
    return app.add_option(words_.text("cli.value." + name), to, words_.text("cli.option." + name))
        ->type_name("")
        ->required();
  }

  CLI::Option* several(CLI::App& app, const std::string& name, std::vector<std::string>& to) {
    return app.add_option(words_.text("cli.value." + name), to, words_.text("cli.option." + name))
        ->type_name("")
        ->required();
  }

  CLI::Option* file(CLI::App& app, const std::string& name = "file") {
    return positional(app, name, to_.file);
  }

  const words::Catalogue& words_;
  Arguments& to_;
  CLI::App app_;
};

std::vector<std::string> flags_of(const CLI::App& app) {
  std::vector<std::string> flags;
  for (const CLI::App* at = &app; at != nullptr; at = at->get_parent())
    for (const CLI::Option* option : at->get_options())
      for (const std::string& name : option->get_lnames()) flags.push_back("--" + name);
  return flags;
}

std::vector<std::string> verbs_of(const CLI::App& app) {
  std::vector<std::string> verbs;
  for (const CLI::App* verb : app.get_subcommands([](const CLI::App*) { return true; }))
    verbs.push_back(verb->get_name());
  return verbs;
}

// The sentence about the first word that nothing takes.
std::string unexpected(const std::string& word, const CLI::App& app,
                       const words::Catalogue& words) {
  const bool is_flag = word.size() > 1 && word[0] == '-';
  const std::string bare = word.substr(0, word.find('='));
  const std::vector<std::string> known = is_flag ? flags_of(app) : verbs_of(app);
  if (known.empty()) return words.text("cli.use.word-too-many", {{"word", word}});
  const std::string near = api::nearest(bare, known);
  const std::string key = is_flag ? "cli.use.flag-unknown" : "cli.use.command-unknown";
  std::string says = words.text(key, {{"word", bare}});
  if (near.empty()) return says;
  return says + " " + words.text("cli.use.did-you-mean", {{"word", near}});
}

// The library's own English stays out of sight where the kind of mistake is known.
std::string told(const CLI::ParseError& error, const words::Catalogue& words) {
  const std::string message = error.what();
  const std::string kind = error.get_name();
  if (kind == "RequiredError")
    return words.text("cli.use.missing",
                      {{"what", message.substr(0, message.find(" is required"))}});
  if (kind == "ExcludesError") return words.text("cli.use.not-together");
  if (kind == "ArgumentMismatch") return words.text("cli.use.value-missing");
  if (kind == "ConversionError")
    return words.text("cli.use.value-unreadable", {{"message", message}});
  return words.text("cli.use.other", {{"message", message}});
}

std::string wrong_use(const CLI::ParseError& error, const CLI::App& app,
                      const words::Catalogue& words) {
  const CLI::App& at = deepest(app);
  const std::vector<std::string> left = app.remaining(true);
  const std::string says = left.empty() ? told(error, words) : unexpected(left.front(), at, words);
  const std::string path = command_of(app);
  return says + "\n" +
         words.text("cli.use.see-help", {{"command", path.empty() ? path : path + " "}}) + "\n";
}

// What is wrong with the day given as --date, "" when nothing is.
std::string date_refused(const std::string& date, const words::Catalogue& words) {
  const auto read = calendar::parse_date(date);
  if (date.empty() || read) return "";
  const outcome::Problem& problem = read.error().front();
  words::Values values{{"value", date}};
  for (const auto& [name, text] : problem.details) values.insert_or_assign(name, text);
  return "--date \"" + date + "\": " + words.text("problem." + problem.code, values) + " " +
         words.text("cure." + problem.code, values) + "\n";
}

}  // namespace

std::variant<Arguments, EndsHere> parse_arguments(std::vector<std::string> given,
                                                  const words::Catalogue& words) {
  if (given.empty()) return EndsHere{exit_codes::fine, words.text("cli.short-help") + "\n"};
  Arguments arguments;
  CommandLine line(words, arguments);
  CLI::App& app = line.app();
  std::reverse(given.begin(), given.end());
  try {
    app.parse(given);
  } catch (const CLI::CallForHelp&) {
    return EndsHere{exit_codes::fine, app.help()};
  } catch (const CLI::ParseError& error) {
    return EndsHere{exit_codes::wrong_use, wrong_use(error, app, words)};
  }
  arguments.command = command_of(app);
  if (std::string date = date_refused(arguments.date, words); !date.empty())
    return EndsHere{exit_codes::wrong_use, std::move(date)};
  const bool unfinished = !verbs_of(deepest(app)).empty();
  if (unfinished) return EndsHere{exit_codes::wrong_use, app.help()};
  return arguments;
}

std::string language_in(const std::vector<std::string>& given) {
  for (std::size_t i = 0; i < given.size(); ++i) {
    if (given[i].compare(0, 7, "--lang=") == 0) return given[i].substr(7);
    if (given[i] == "--lang" && i + 1 < given.size()) return given[i + 1];
  }
  return "en";
}

}  // namespace wheyfield::cli
