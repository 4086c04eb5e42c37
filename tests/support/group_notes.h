// Notes as groups write them down, for measuring: a day of one group, a trainer's season of four.
// Invented: Reedwater valley, farms by number. Drawn, so that values, order and times are as
// irregular as a person's; the same seed gives the same notes on every machine.
#pragma once

#include <algorithm>
#include <string>
#include <vector>

#include "journal/event.h"
#include "support/draw.h"

namespace wheyfield::testing {

class GroupNotes {
 public:
  explicit GroupNotes(std::uint64_t seed) : draw_(seed) {}

  // One Thursday of a group of 24 farms on two phones: 78 events.
  std::vector<journal::Event> day() {
    phones_ = {{"KOBO", 211}, {"TANO", 164}};
    batches_ = 7;
    farms_ = 24;
    meeting_day(calendar::Date::from_civil(2027, 3, 4), {9, 18, 12, 10, 5});
    return std::move(events_);
  }

  // Four groups of 12 farms from February on, eight phones: 1,384 events, 346 a group: 60 when they
  // join, 12 of the trial, 27 on each of 10 meetings, 4 visits.
  std::vector<journal::Event> season() {
    for (const char* name : {"KOBO", "TANO", "MIRA", "DUSK", "PEPO", "LUKA", "SAFI", "ONYX"})
      all_phones_.push_back({name, 0});
    farms_ = 12;
    for (group_ = 0; group_ < 4; ++group_) {
      phones_ = {all_phones_[2 * group_], all_phones_[2 * group_ + 1]};
      batches_ = 1;
      group_season();
    }
    return std::move(events_);
  }

 private:
  struct Phone {
    std::string device;
    std::int64_t counter = 0;
  };
  struct Counts {
    int readings, payments, hand_outs, uses, sightings;
  };
  using Body = nlohmann::json;

  bool one_in(std::uint64_t n) { return draw_.below(n) == 0; }
  std::string pick(const std::vector<std::string>& of) { return of[draw_.below(of.size())]; }
  std::string number(int low, int high) { return std::to_string(draw_.between(low, high)); }
  std::string farm() { return farm(draw_.between(1, farms_)); }
  std::string farm(int nth) const { return std::to_string(static_cast<int>(group_) * 100 + nth); }
  std::string member(int nth) const { return "M" + farm(nth); }
  std::string crop() {
    return pick({"maize", "common-bean", "kale", "cabbage", "tomato", "onion", "potato"});
  }
  std::string litres() { return number(1, 9) + (one_in(2) ? ",5 L" : " L"); }
  std::string batch() { return "B" + number(std::max(1, batches_ - 4), batches_); }

  std::string name() {
    std::string name;
    for (int i = draw_.between(2, 3); i > 0; --i)
      name += {draw_.letter("bdgklmnrstw"), draw_.letter("aeiou")};
    name.front() = static_cast<char>(name.front() - 'a' + 'A');
    return name;
  }

  void begin(calendar::Date on, int hour) {
    on_ = on;
    // 180 minutes east of UTC.
    seconds_ =
        static_cast<std::int64_t>(on.days()) * 86400 + (hour - 3) * 3600 + draw_.between(0, 3599);
  }
  void note(std::size_t phone, const std::string& kind, Body body, int least_s, int most_s) {
    journal::Event event;
    event.id = {phones_[phone].device, ++phones_[phone].counter};
    seconds_ += draw_.between(least_s, most_s);
    event.at = {seconds_, one_in(20) ? draw_.between(1, 3) : 0};
    event.on = one_in(25) ? on_ - draw_.between(1, 3) : on_;
    event.utc_offset_min = 180;
    event.kind = kind;
    event.body = std::move(body);
    events_.push_back(std::move(event));
  }

  void reading(int nth, const std::string& half) {
    Body body{
        {"batch", "B" + std::to_string(nth)},
        {"half", half},
        {"ph", number(3, 5) + "," + number(0, 9)},
        {"smell", pick({"sour, clean", "like yoghurt", "yeasty", "sharp", "cheesy", "milky"})},
        {"surface", pick({"clear", "white skin", "curd floats", "bubbles", "thin skin"})}};
    if (one_in(2)) body["set"] = pick({"yes", "no"});
    if (one_in(3)) body["temperature"] = number(17, 27) + " C";
    if (one_in(12)) body["smell"] = "a bit like the barn, " + number(2, 9) + " cm of curd";
    note(0, "reading", std::move(body), 30, 200);
  }
  void attendance() {
    for (int nth = 1; nth <= farms_; ++nth)
      note(0, "attendance", {{"member", member(nth)}, {"came", one_in(5) ? "no" : "yes"}}, 3, 25);
  }
  void paid_in() {
    const std::string who = member(draw_.between(1, farms_));
    if (one_in(2))
      note(1, "paid-in", {{"member", who}, {"what", "milk"}, {"amount", litres()}}, 20, 150);
    else
      note(1, "paid-in", {{"member", who}, {"what", "money"}, {"amount", number(2, 30) + "0"}}, 20,
           150);
  }
  void handed_out() {
    note(1, "handed-out",
         {{"farm", farm()},
          {"product", "serum"},
          {"amount", number(6, 90) + "0 mL"},
          {"batch", batch()}},
         20, 150);
  }
  void use() {
    Body body{
        {"farm", farm()}, {"crop", crop()}, {"use", pick({"soil", "seedling", "leaf", "flower"})}};
    if (one_in(6)) {
      body["none_because"] = pick({"rain", "away", "no serum left", "leaves still wet"});
    } else {
      body["serum"] = number(4, 130) + " mL";
      body["method"] = pick({"knapsack", "can", "branch"});
      body["put_on"] = number(3, 40) + " L";
    }
    note(draw_.below(2), "use", std::move(body), 30, 240);
  }
  void seen() {
    note(0, "seen",
         {{"farm", farm()},
          {"crop", crop()},
          {"what", pick({"emerged", "first-flower", "fruit-set", "heads-forming", "lice"})}},
         30, 240);
  }

  void meeting_day(calendar::Date on, const Counts& counts) {
    begin(on, 8);
    for (int i = counts.readings / 2; i > 0; --i) reading(batches_ - i + 1, "morning");
    attendance();
    for (int i = 0; i < counts.payments; ++i) paid_in();
    for (int i = 0; i < counts.hand_outs; ++i) handed_out();
    for (int i = 0; i < counts.uses; ++i) use();
    for (int i = 0; i < counts.sightings; ++i) seen();
    begin(on, 16);
    for (int i = counts.readings - counts.readings / 2; i > 0; --i)
      reading(batches_ - i + 1, "afternoon");
  }

  void members_join(calendar::Date on) {
    begin(on, 9);
    for (int nth = 1; nth <= farms_; ++nth) {
      note(1, "member", {{"member", member(nth)}, {"farm", farm(nth)}}, 5, 60);
      note(1, "name",
           {{"member", member(nth)},
            {"name", name() + " " + name()},
            {"village", pick(villages)},
            {"phone", "07" + number(10000000, 99999999)}},
           20, 120);
      note(1, "farm",
           {{"code", farm(nth)},
            {"place", pick({"lower", "upper", "river"})},
            {"cap", number(4, 9) + " mL"},
            {"can", number(8, 20) + " L"}},
           30, 200);
      note(1, "field",
           {{"farm", farm(nth)}, {"crop", crop()}, {"area", "0," + number(1, 9) + " acre"}}, 30,
           200);
      note(1, "agreed",
           {{"member", member(nth)},
            {"purpose", "records"},
            {"answer", "yes"},
            {"witness", member(draw_.between(1, farms_))}},
           5, 60);
    }
  }
  void visit(calendar::Date on) {
    begin(on, 14);
    std::string words = pick(remarks);
    for (int i = draw_.between(0, 2); i > 0; --i)
      words += "; " + pick(remarks) + " in field " + number(1, 4);
    note(0, "visit", {{"farm", farm()}, {"by", member(draw_.between(1, farms_))}, {"note", words}},
         60, 400);
  }
  void batch_made(calendar::Date on) {
    begin(on, 7);
    note(0, "batch",
         {{"label", "B" + std::to_string(batches_)},
          {"recipe", "lactic-serum"},
          {"vessel", pick({"A", "B", "C"})},
          {"farm", farm()},
          {"amount", litres()}},
         30, 200);
    note(0, "step",
         {{"batch", batch()},
          {"step", pick({"strain", "add-milk", "cut", "molasses"})},
          {"amount", number(200, 900) + " g"}},
         60, 900);
    note(0, "made", {{"batch", batch()}, {"product", "serum"}, {"amount", litres()}}, 60, 900);
  }
  void trial(calendar::Date on) {
    begin(on, 10);
    for (int nth = 1; nth <= 6; ++nth)
      for (const char* side : {"-with", "-without"})
        note(0, "weight",
             {{"plot", farm(nth) + side},
              {"farm", farm(nth)},
              {"picking", "1"},
              {"mass", number(8, 60) + "," + number(0, 9) + " kg"}},
             60, 400);
  }

  void group_season() {
    calendar::Date on = calendar::Date::from_civil(2027, 2, 4) + static_cast<int>(group_);
    members_join(on);
    for (int meeting = 0; meeting < 10; ++meeting, ++batches_) {
      on = on + 7 + (one_in(4) ? 7 : 0);
      batch_made(on - 2);
      meeting_day(on, {3, 3, 3, 2, 1});
    }
    trial(on + 3);
    for (int i = 1; i <= 4; ++i) visit(on + 3 * i);
  }

  inline static const std::vector<std::string> villages{"Upper Reedwater", "Millbend", "Stonyford"};
  inline static const std::vector<std::string> remarks{"leaves darker than next door",
                                                       "sprayed at noon by mistake",
                                                       "rows by the hedge stand smaller",
                                                       "string of the plot was moved by goats",
                                                       "she asks for two litres more",
                                                       "soil cracked, waters by hand",
                                                       "nothing to see yet"};

  Draw draw_;
  std::size_t group_ = 0;
  int farms_ = 24;
  int batches_ = 1;
  calendar::Date on_;
  std::int64_t seconds_ = 0;
  std::vector<Phone> phones_;
  std::vector<Phone> all_phones_;
  std::vector<journal::Event> events_;
};

}  // namespace wheyfield::testing
