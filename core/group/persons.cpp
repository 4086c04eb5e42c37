#include "group/persons.h"

#include <algorithm>
#include <set>
#include <tuple>

#include "group/sounds_alike.h"
#include "journal/standing.h"

namespace wheyfield::group {
namespace {

using journal::Event;
using journal::Facts;
using journal::Item;
using journal::text_in;

bool is_number(const std::string& code) {
  return !code.empty() &&
         std::all_of(code.begin(), code.end(), [](char c) { return c >= '0' && c <= '9'; });
}

// The kinds of the group's notes that name a member.
const std::vector<std::string>& kinds_of_members() {
  static const std::vector<std::string> kinds{"member", "name",      "agreed",  "joined",
                                              "left",   "duty",      "paid-in", "paid-out",
                                              "taught", "attendance"};
  return kinds;
}

// Of one person, by day; two of one day in the order in which they were written.
std::vector<Move> moves_of(const Facts& facts, const std::set<std::string>& codes) {
  std::vector<std::pair<const Event*, bool>> said;
  for (const char* kind : {"joined", "left"})
    for (const Item& item : facts.of(kind))
      if (codes.count(text_in(item.body, "member")) != 0)
        said.emplace_back(item.said.back(), kind[0] == 'j');
  std::sort(said.begin(), said.end(), [](const auto& a, const auto& b) {
    return a.first->on != b.first->on ? a.first->on < b.first->on
                                      : journal::comes_before(*a.first, *b.first);
  });
  std::vector<Move> moves;
  for (const auto& [event, in] : said) moves.push_back({event->on, in});
  return moves;
}

// The first that is noted of the person's codes.
std::string noted(const Facts& facts, const std::set<std::string>& codes,
                  std::initializer_list<const char*> kinds, const char* member) {
  for (const char* kind : kinds)
    for (const Item& item : facts.of(kind))
      if (codes.count(text_in(item.body, "member")) != 0)
        if (std::string text = text_in(item.body, member); !text.empty()) return text;
  return "";
}

std::vector<std::string> agreed_by(const Facts& facts, const std::set<std::string>& codes) {
  std::set<std::string> purposes;
  for (const Item& item : facts.of("agreed"))
    if (codes.count(text_in(item.body, "member")) != 0 && text_in(item.body, "answer") == "yes")
      purposes.insert(text_in(item.body, "purpose"));
  return {purposes.begin(), purposes.end()};
}

// Village names are compared as they sound.
std::u32string village_key(const Item& name) {
  std::u32string key;
  for (const std::u32string& word : sounded(text_in(name.body, "village"))) key += word;
  return key;
}

using Pair = std::pair<const Item*, const Item*>;

struct CodeOrder {
  bool operator()(const Pair& a, const Pair& b) const {
    return std::tie(a.first->identity, a.second->identity) <
           std::tie(b.first->identity, b.second->identity);
  }
};

// All pairs that one look at names, villages and phones finds.
std::set<Pair, CodeOrder> alike(const Facts& facts) {
  std::map<std::u32string, std::vector<const Item*>> villages;
  std::map<std::string, std::vector<const Item*>> phones;
  for (const Item& item : facts.of("name")) {
    if (const auto village = village_key(item); !village.empty())
      villages[village].push_back(&item);
    if (const auto phone = phone_key(text_in(item.body, "phone")); !phone.empty())
      phones[phone].push_back(&item);
  }
  std::set<Pair, CodeOrder> pairs;
  const auto each_pair = [&](const auto& lists, const auto& good) {
    for (const auto& [key, list] : lists)
      for (std::size_t i = 0; i < list.size(); ++i)
        for (std::size_t j = i + 1; j < list.size(); ++j)
          if (good(*list[i], *list[j]))
            pairs.insert(list[i]->identity < list[j]->identity ? Pair{list[i], list[j]}
                                                               : Pair{list[j], list[i]});
  };
  each_pair(villages, [](const Item& a, const Item& b) {
    return sound_alike(text_in(a.body, "name"), text_in(b.body, "name"));
  });
  each_pair(phones, [](const Item&, const Item&) { return true; });
  return pairs;
}

}  // namespace

bool code_before(const std::string& a, const std::string& b) {
  const bool numbers = is_number(a);
  if (numbers != is_number(b)) return numbers;
  if (numbers && a.size() != b.size()) return a.size() < b.size();
  return a < b;
}

std::vector<std::string> in_code_order(std::vector<std::string> codes) {
  std::sort(codes.begin(), codes.end(), code_before);
  return codes;
}

Persons::Persons(const Facts& facts) {
  for (const Item& item : facts.of("same-person")) {
    const nlohmann::json& body = item.said.back()->body;
    const std::string one = of(text_in(body, "member"));
    const std::string other = of(text_in(body, "other"));
    const std::string& first = code_before(one, other) ? one : other;
    for (auto& [code, known_as] : known_as_)
      if (known_as == one || known_as == other) known_as = first;
    known_as_[one] = first;
    known_as_[other] = first;
  }
}

std::string Persons::of(const std::string& member) const {
  const auto found = known_as_.find(member);
  return found == known_as_.end() ? member : found->second;
}

bool Member::here(calendar::Date day) const {
  bool there = moves.empty() || !moves.front().in;
  for (const Move& move : moves)
    if (move.on <= day) there = move.in;
  return there;
}

std::optional<calendar::Date> Member::joined_on() const {
  for (auto move = moves.rbegin(); move != moves.rend(); ++move)
    if (move->in) return move->on;
  return std::nullopt;
}

std::optional<calendar::Date> Member::left_on() const {
  if (moves.empty() || moves.back().in) return std::nullopt;
  return moves.back().on;
}

std::vector<Member> members(const Facts& facts, const Persons& persons) {
  std::map<std::string, std::set<std::string>> codes;
  for (const std::string& kind : kinds_of_members())
    for (const Item& item : facts.of(kind))
      for (const Event* event : item.said)
        if (const std::string code = text_in(event->body, "member"); !code.empty())
          codes[persons.of(code)].insert(code);
  std::vector<Member> all;
  for (const auto& [code, of_person] : codes) {
    Member member{code, {}, "", "", moves_of(facts, of_person), agreed_by(facts, of_person)};
    for (const std::string& also : of_person)
      if (also != code) member.also.push_back(also);
    member.farm = noted(facts, of_person, {"member", "joined"}, "farm");
    member.name = noted(facts, of_person, {"name"}, "name");
    all.push_back(std::move(member));
  }
  std::sort(all.begin(), all.end(),
            [](const Member& a, const Member& b) { return code_before(a.code, b.code); });
  return all;
}

std::vector<journal::Question> same_person_questions(const Facts& facts) {
  const Persons persons(facts);
  std::vector<journal::Question> questions;
  for (const auto& [one, other] : alike(facts)) {
    if (persons.joined(text_in(one->body, "member"), text_in(other->body, "member"))) continue;
    journal::Question question{"same-person", one->identity + "/" + other->identity, one->said};
    question.events.insert(question.events.end(), other->said.begin(), other->said.end());
    std::sort(question.events.begin(), question.events.end(),
              [](const Event* a, const Event* b) { return journal::comes_before(*a, *b); });
    if (!journal::answered(facts.choices, question.name(), question.events))
      questions.push_back(std::move(question));
  }
  return questions;
}

}  // namespace wheyfield::group
