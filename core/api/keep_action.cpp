// Raw serum with molasses in a can: how sweet, how much free water, how much gas, what to write on
// it. Candid: this slows spoilage and does not stop it.
#include <algorithm>
#include <cmath>

#include "api/batch_fields.h"
#include "api/dose_answer.h"
#include "api/field_reader.h"
#include "fermentation/storage.h"

namespace wheyfield::api {
namespace {

using fermentation::StorageData;
using outcome::Problems;
using outcome::Result;
using quantity::in_litres;
using quantity::rounded;
using words::Decimal;
using words::Values;

const Fields keep_fields{"BatchKeep",
                         {{"serum", Holds::volume, true},
                          {"molasses", Holds::volume, true},
                          {"brix", Holds::number},
                          {"bottle", Holds::volume},
                          {"headspace", Holds::volume},
                          {"on", Holds::date},
                          {"test_again", Holds::days},
                          {"pages", Holds::flag}}};

// Shares of the sugar that are told as having fermented.
constexpr double fermented[] = {0.005, 0.01, 0.02, 0.05};

struct AskedMix {
  double serum = 1.0;
  double molasses = 1.0;
  double brix = 80.0;
  bool brix_measured = false;
};

struct Activity {
  double low;
  double likely;
  double high;
};

// Over molasses of 75 to 85 Brix (only the measured one where it was) and both volumes off.
Activity activity(const StorageData& data, const AskedMix& mix, const Session& session) {
  const reference_data::Sourced& usual = session.data.constant("storage-brix");
  const double off = session.data.constant("storage-volume-error").value;
  const auto at = [&](double serum, double molasses, double brix) {
    return fermentation::stored_mix(data, mix.serum * serum, mix.molasses * molasses, brix)
        .water_activity;
  };
  return {at(1.0 - off, 1.0 + off, mix.brix_measured ? mix.brix : usual.high),
          at(1.0, 1.0, mix.brix),
          at(1.0 + off, 1.0 - off, mix.brix_measured ? mix.brix : usual.low)};
}

struct Bottle {
  double litres;
  double headspace;
};

Json gas_json(const StorageData& data, const fermentation::StoredMix& mix, const Bottle& bottle) {
  Json rows = Json::array();
  const double liquid = bottle.litres - bottle.headspace;
  for (const double share : fermented) {
    const double gas = fermentation::gas_litres(mix.sugars * liquid, share);
    rows.push_back(
        {{"share", share},
         {"gas_l", rounded(gas, 6)},
         {"gauge_bar",
          rounded(fermentation::gauge_pressure(data, gas, liquid, bottle.headspace), 6)}});
  }
  return rows;
}

void note_storage(const Session& session, Answer& answer) {
  for (const char* id :
       {"storage-molasses-sucrose", "storage-molasses-reducing", "storage-molasses-ash",
        "storage-ash-mole", "storage-serum-density", "storage-serum-solids",
        "storage-serum-lactose", "storage-norrish-sucrose", "storage-norrish-reducing",
        "storage-salt-osmotic", "storage-brix", "storage-volume-error", "sugar-density-50",
        "sugar-density-80", "yeasts-grow-at"})
    noted(session, id, "sugar and free water of the mix", answer);
  noted(session, "storage-gas-solubility", "gas in a closed bottle", answer);
  noted(session, "retest-days", "when to test again", answer);
}

sheet::Page keep_page(const Session& session, const fermentation::StoredMix& mix,
                      const Activity& wet, const Json& gas, const Values& values) {
  const words::Catalogue& w = session.words;
  sheet::Page page("keep", w.text("keep.title"));
  page.text(w.text("keep.mix", values));
  page.text(w.text("keep.activity", {{"low", Decimal{wet.low, 2}},
                                     {"likely", Decimal{wet.likely, 2}},
                                     {"high", Decimal{wet.high, 2}}}));
  page.text(
      w.text("keep.slows", {{"percent", Decimal{session.data.constant("yeasts-grow-at").value, 0}},
                            {"brix", Decimal{mix.brix, 0}}}));
  page.text(w.text("keep.ph"));
  if (!gas.empty()) {
    page.heading(w.text("keep.gas"));
    std::vector<std::vector<std::string>> rows;
    for (const Json& row : gas)
      rows.push_back({w.number({100.0 * row["share"].get<double>(), 1}),
                      w.number({row["gas_l"].get<double>(), 1}),
                      w.number({row["gauge_bar"].get<double>(), 1})});
    page.table({{w.text("keep.col-share"), true},
                {w.text("keep.col-gas"), true},
                {w.text("keep.col-bar"), true}},
               std::move(rows));
    page.text(w.text("keep.gas-so"));
  }
  page.heading(w.text("keep.label"));
  page.text(w.text("keep.label-says", values));
  page.text(w.text("keep.potency"));
  return page;
}

void put_mix(const fermentation::StoredMix& mix, const Activity& wet, Answer& answer) {
  answer.fields = {{"litres", rounded(mix.litres, 6)},
                   {"brix", rounded(mix.brix, 6)},
                   {"density_kg_l", rounded(mix.density, 6)},
                   {"sugars_g_l", rounded(mix.sugars, 6)},
                   {"water_activity",
                    {{"low", rounded(wet.low, 6)},
                     {"likely", rounded(wet.likely, 6)},
                     {"high", rounded(wet.high, 6)}}},
                   {"preserves", false}};
}

// 1 where it was not given or is refused.
double litres_of(const Session& session, const FieldReader& r, const char* name) {
  const auto volume = r.volume(name);
  if (!volume) return 1.0;
  r.refuse_outside(session.data.constant("storage-litres-limits"), "stored-litres-out-of-range",
                   name, in_litres(*volume));
  return in_litres(*volume);
}

AskedMix read_mix(const Session& session, const FieldReader& r) {
  const double usual = session.data.constant("storage-brix").value;
  const AskedMix asked{litres_of(session, r, "serum"), litres_of(session, r, "molasses"),
                       r.number("brix").value_or(usual), r.given("brix")};
  r.refuse_outside(session.data.constant("storage-brix-limits"), "brix-out-of-range", "brix",
                   asked.brix);
  return asked;
}

std::optional<Bottle> read_bottle(const Session& session, const FieldReader& r) {
  if (!r.given("bottle")) {
    if (r.given("headspace")) r.want("bottle");
    return std::nullopt;
  }
  const double size = litres_of(session, r, "bottle");
  Bottle bottle{size, size * session.data.constant("storage-headspace").value};
  if (r.given("headspace")) bottle.headspace = litres_of(session, r, "headspace");
  if (bottle.headspace >= bottle.litres)
    r.add("headspace-too-large", "headspace", *r.text("headspace"), {{"limit", *r.text("bottle")}});
  return bottle;
}

}  // namespace

const Fields& batch_keep_fields() { return keep_fields; }

Result<Answer> batch_keep(const Session& session, const nlohmann::json& body) {
  Answer answer;
  Problems problems = check_shape(body, keep_fields, "");
  const FieldReader r(body, "", session.data.units(), problems);
  if (outcome::has_errors(problems)) return outcome::failure(std::move(problems));
  const AskedMix asked = read_mix(session, r);
  const std::optional<Bottle> bottle = read_bottle(session, r);
  const auto on = r.date("on").value_or(session.today);
  const auto retest = r.days("test_again");
  if (outcome::has_errors(problems)) return outcome::failure(std::move(problems));
  const StorageData data = StorageData::of(session.data);
  const auto mix = fermentation::stored_mix(data, asked.serum, asked.molasses, asked.brix);
  const Activity wet = activity(data, asked, session);
  const int days = retest.value_or(static_cast<int>(session.data.constant("retest-days").value));
  const Json gas = bottle ? gas_json(data, mix, *bottle) : Json::array();
  put_mix(mix, wet, answer);
  answer.fields["gas"] = gas;
  answer.fields["mixed_on"] = on.iso();
  answer.fields["test_again_by"] = (on + days).iso();
  answer.fields["test_again_entered"] = retest.has_value();
  note_storage(session, answer);
  add_cautions(session, {"gas-pressure", "label-not-food", "test-before-molasses"}, answer);
  if (r.flag("pages"))
    add_page(session,
             keep_page(session, mix, wet, gas,
                       {{"serum", Decimal{asked.serum, 2}},
                        {"molasses", Decimal{asked.molasses, 2}},
                        {"asked_brix", Decimal{asked.brix, 0}},
                        {"litres", Decimal{mix.litres, 2}},
                        {"brix", Decimal{mix.brix, 0}},
                        {"density", Decimal{mix.density, 2}},
                        {"sugars", Decimal{mix.sugars, 0}},
                        {"on", on},
                        {"again", on + days}}),
             answer);
  return answer;
}

}  // namespace wheyfield::api
