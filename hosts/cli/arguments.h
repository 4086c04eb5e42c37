// The command line as a value: which command, with what. Nothing is read or asked here.
#pragma once

#include <map>
#include <string>
#include <variant>
#include <vector>

#include "words/catalogue.h"

namespace wheyfield::cli {

// Of the `crop` verbs.
struct CropArguments {
  std::string crop;
  std::string sowing;
  std::string sown_on;
  std::string nursery_on;
  std::string seed;
  std::string harvest_after;
  std::string own_count;
  std::string station;
  std::string altitude;
  std::string temperatures;       // a CSV file
  std::string months;             // a CSV file
  std::vector<std::string> seen;  // "first-flower 2027-05-03"
  std::string rain;               // a CSV file
  std::string rule;
  std::string earliest;
};

// Of the `journal` verbs.
struct JournalArguments {
  std::string kind;
  std::string about;
  std::vector<std::string> members;  // "cap=5 mL"
  std::string day;
  std::vector<std::string> replaces;
  std::vector<std::string> notes;  // ids to strike
  std::string why;
  std::string question;
  std::string take;
  std::string member;
  std::string lost;
  std::string last;
  std::string last_note;
  std::string as = "plain";
  bool names = false;
};

struct Arguments {
  std::string command;  // noun and verb, "season plan"; "" = none given
  std::string file;
  std::string farms;  // a CSV file
  std::string recipe;
  std::string make;
  std::string vessel;
  std::string ingredients;  // a CSV file
  std::string last_used;    // day of the last use, before a harvest
  std::string local_days;   // that a local rule waits
  // Of a command whose options are the declared fields of its request: what was given, by field.
  std::map<std::string, std::vector<std::string>> fields;
  std::string batch;  // its label
  std::string svg;    // file for the picture; "" = none
  std::vector<std::string> sections;
  std::optional<std::string> plan_method;
  std::optional<long long> threads;
  std::string seasons;  // of chance
  std::string was;      // file of the earlier plan
  std::vector<std::string> failed;
  std::string change_on;
  std::string announced_until;
  CropArguments planting;
  JournalArguments note;
  std::string journal;  // the file of notes; "" = the usual one
  std::string device;   // "" = the one kept on this machine
  std::string date;     // "" = today
  long long seed = 1;
  std::string language = "en";
  bool json = false;
  bool quiet = false;
  bool request = false;
  bool yes = false;
  bool dry_run = false;
};

// The program has already said all: help (exit 0, standard output) or a wrong use (exit 2,
// standard error).
struct EndsHere {
  int exit = 0;
  std::string text;
};

// `given` without the program's name.
std::variant<Arguments, EndsHere> parse_arguments(std::vector<std::string> given,
                                                  const words::Catalogue& words);

// The value of --lang, looked up before anything can be said in it.
std::string language_in(const std::vector<std::string>& given);

}  // namespace wheyfield::cli
