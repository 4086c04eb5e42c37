#include <algorithm>

#include "api/session.h"

namespace wheyfield::api {
namespace {

struct Question {
  const char* field;    // JSON pointer in the season body; in a repeated group, within one member
  const char* example;  // also the form in which to answer
  const char* repeat;   // list that the answer belongs to, "" for none; "places/months" is a list
                        // of each place; with field "" the members are the answers themselves
  bool required;
};

// In the order of the season file, so that what is written reads like the practice season. Farms
// come as a table of their own (CSV).
constexpr Question questions[] = {{"/season/name", "Reedwater long rains 2027", "", true},
                                  {"/season/from", "2027-02-01", "", true},
                                  {"/season/to", "2027-08-31", "", true},
                                  {"/season/first_start", "2027-02-25", "", true},
                                  {"/season/currency", "c", "", true},
                                  {"/season/recipe", "lactic-serum", "", true},
                                  {"/season/strength", "1:500", "", true},
                                  {"/season/serum_life", "60 days", "", true},
                                  {"/season/spare", "1 in 6", "", true},
                                  {"/meetings/day", "Thursday", "", true},
                                  {"", "2027-03-25", "meetings/none_on", false},
                                  {"/market/day", "Tuesday", "", true},
                                  {"/name", "lower", "places", true},
                                  {"/altitude", "1250 m", "places", true},
                                  {"/month", "2027-02", "places/months", false},
                                  {"/min", "15.8", "places/months", true},
                                  {"/max", "29.0", "places/months", true},
                                  {"/day", "meeting", "milk", true},
                                  {"/most", "4 L", "milk", true},
                                  {"/price", "50", "milk", true},
                                  {"/name", "A", "vessels", true},
                                  {"/at", "7", "vessels", true},
                                  {"/size", "20 L", "vessels", true},
                                  {"/fill_line", "13.3 L", "vessels", true},
                                  {"/milk", "heated", "vessels", true},
                                  {"/kind", "can", "containers", false},
                                  {"/size", "20 L", "containers", true},
                                  {"/count", "6", "containers", true},
                                  {"/without_lid", "2", "containers", false},
                                  {"/place", "lower", "water", true},
                                  {"/kind", "river", "water", true},
                                  {"/price_per_can", "5", "water", true},
                                  {"/labour/day", "350", "", true},
                                  {"/labour/hours", "8", "", true},
                                  {"/item", "molasses", "prices", true},
                                  {"/pack", "2 L", "prices", true},
                                  {"/price", "200", "prices", true},
                                  {"/item", "serum", "stock", false},
                                  {"/amount", "2 L", "stock", true},
                                  {"/made_on", "2027-02-20", "stock", false}};

// "/season/first_start" -> "ask.season.first_start"; within a group "ask.places.months.min".
std::string word_key(const Question& q) {
  std::string key = "ask" + (*q.repeat ? "/" + std::string(q.repeat) : std::string()) + q.field;
  std::replace(key.begin(), key.end(), '/', '.');
  return key;
}

}  // namespace

outcome::Result<Answer> season_questions(const Session& session, const nlohmann::json&) {
  Answer answer;
  Json list = Json::array();
  for (const Question& q : questions)
    list.push_back({{"field", q.field},
                    {"text", session.words.text(word_key(q))},
                    {"example", q.example},
                    {"repeat", q.repeat},
                    {"required", q.required}});
  answer.fields["questions"] = std::move(list);
  return answer;
}

}  // namespace wheyfield::api
