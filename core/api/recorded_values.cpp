#include "api/recorded_values.h"

#include <map>

#include "journal/standing.h"

namespace wheyfield::api {
namespace {

using journal::Event;
using journal::Item;
using journal::text_in;
using nlohmann::json;

class Filling {
 public:
  Filling(const Session& session, json body, const json& farm)
      : session_(session), farm_(farm), body_(std::move(body)) {
    const std::string of_field =
        text_in(farm, "code") + "/" + text_in(body_, "crop") + "/" + text_in(body_, "nth");
    field_ = session.facts.find("field", of_field);
  }

  void mix() {
    strength();
    const bool tank = text_in(farm_, "method") == "knapsack" && !text_in(farm_, "sprayer").empty();
    fill("water", farm_, tank ? "sprayer" : "can");
    fill("cap", farm_, "cap");
  }
  void sprayer() {
    strength();
    fill("tank", farm_, "sprayer");
    fill("cap", farm_, "cap");
  }
  void plot() {
    strength();
    fill("rate", farm_, "mix_rate");
  }
  void soak() {
    strength();
    if (field_ == nullptr) return;
    fill("seed_is", field_->body, "seed");
    fill("mass", field_->body, "seed_mass");
    fill("sowing", field_->body, "sowing");
  }
  void balance() {
    if (field_ != nullptr) fill("area", field_->body, "area");
  }
  void harvest() {
    strength();
    const Event* use = latest_use();
    if (use == nullptr) return;
    if (!body_.contains("last_use")) body_["last_use"] = use->on.iso();
    fill("on", use->body, "put_on");
    fill("method", use->body, "method");
    fill("method", farm_, "method");
  }

  json done() {
    body_.erase("farm");
    body_.erase("nth");
    return std::move(body_);
  }

 private:
  void fill(const char* member, const json& from, const char* recorded) {
    const auto value = from.find(recorded);
    if (!body_.contains(member) && value != from.end()) body_[member] = *value;
  }

  // The season's.
  void strength() {
    const Item* season = session_.facts.find("season", "");
    if (season != nullptr) fill("strength", season->body, "strength");
  }

  // By the day it was done; nothing was put on in a use noted as none.
  const Event* latest_use() const {
    const Event* latest = nullptr;
    for (const Item& item : session_.facts.of("use"))
      for (const Event* use : item.said) {
        const bool here = text_in(use->body, "farm") == text_in(farm_, "code") &&
                          text_in(use->body, "crop") == text_in(body_, "crop") &&
                          text_in(use->body, "nth") == text_in(body_, "nth") &&
                          !use->body.contains("none_because");
        if (here && (latest == nullptr || latest->on <= use->on)) latest = use;
      }
    return latest;
  }

  const Session& session_;
  const json& farm_;
  json body_;
  const Item* field_ = nullptr;
};

}  // namespace

outcome::Result<std::optional<json>> with_recorded(const Session& session, std::string_view action,
                                                   const json& body) {
  static const std::map<std::string_view, void (Filling::*)()> ways{
      {"dose.mix", &Filling::mix},         {"dose.sprayer", &Filling::sprayer},
      {"dose.plot", &Filling::plot},       {"dose.soak", &Filling::soak},
      {"dose.harvest", &Filling::harvest}, {"nutrients.balance", &Filling::balance}};
  const auto way = ways.find(action);
  const std::string code = text_in(body, "farm");
  if (way == ways.end() || code.empty()) return std::nullopt;
  const Item* farm = session.facts.find("farm", code);
  if (farm == nullptr) return outcome::failure({"farm-not-recorded", "/farm", code, {}});
  Filling filling(session, body, farm->body);
  (filling.*way->second)();
  return std::optional(filling.done());
}

}  // namespace wheyfield::api
