#include "api/session.h"

namespace wheyfield::api {
namespace {

struct Question {
  const char* field;    // JSON pointer in the season body; in a repeated group, within one member
  const char* example;  // also the form in which to answer
  const char* repeat;   // list that the answer belongs to, "" for none
  bool required;
};

// In the order in which a trainer can answer from her head, then from her notebook. Farms come as a
// table of their own (CSV).
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
                                  {"/market/day", "Tuesday", "", true},
                                  {"/labour/day", "350", "", true},
                                  {"/labour/hours", "8", "", true},
                                  {"/name", "lower", "places", true},
                                  {"/altitude", "1250 m", "places", true},
                                  {"/place", "lower", "water", true},
                                  {"/kind", "river", "water", true},
                                  {"/price_per_can", "5", "water", true},
                                  {"/day", "meeting", "milk", true},
                                  {"/most", "4 L", "milk", true},
                                  {"/price", "50", "milk", true},
                                  {"/name", "A", "vessels", true},
                                  {"/at", "7", "vessels", true},
                                  {"/size", "20 L", "vessels", true},
                                  {"/fill_line", "13.3 L", "vessels", true},
                                  {"/milk", "heated", "vessels", true},
                                  {"/item", "molasses", "prices", true},
                                  {"/pack", "2 L", "prices", true},
                                  {"/price", "200", "prices", true}};

// "/season/first_start" -> "season.first_start"; within a group "places.altitude".
std::string word_key(const Question& q) {
  std::string key = "ask" + (*q.repeat ? "." + std::string(q.repeat) : std::string());
  for (const char* c = q.field; *c; ++c) key += *c == '/' ? '.' : *c;
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
