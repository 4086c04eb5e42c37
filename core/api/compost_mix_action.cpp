// What goes into a heap: how much of each for a C:N or a moisture, or the cheapest of what is to be
// had; water, loose volume, and how much the tables leave open.
#include <algorithm>
#include <cmath>

#include "api/compost_fields.h"
#include "api/compost_mix.h"
#include "api/compost_reader.h"
#include "api/dose_answer.h"
#include "api/field_reader.h"
#include "compost/best_mix.h"
#include "quantity/number_text.h"

namespace wheyfield::api {
namespace {

using compost::Blend;
using compost::Part;
using outcome::Problems;
using outcome::Result;
using quantity::rounded;
using words::Values;

const Fields mix_fields{"CompostMix",
                        {{"put", Holds::texts},
                         {"add", Holds::texts},
                         {"ingredients", Holds::list, false, "", &heap_ingredient_fields()},
                         {"ratio", Holds::text},
                         {"moisture", Holds::number},
                         {"heap", Holds::volume},
                         {"pages", Holds::flag}}};

// "30" or "25 to 30".
void read_ratio(const Session& session, const FieldReader& r, AskedMix& asked) {
  const auto& usual = session.data.constant("compost-ratio");
  const auto& limits = session.data.constant("compost-ratio-limits");
  const auto text = r.text("ratio");
  asked.ratio_given = text.has_value();
  if (!text) {
    asked.ratio_low = usual.low;
    asked.ratio_high = usual.high;
    return;
  }
  const std::size_t to = text->find(" to ");
  const auto low = quantity::parse_number(quantity::trimmed(text->substr(0, to)));
  const auto high = to == std::string::npos
                        ? low
                        : quantity::parse_number(quantity::trimmed(text->substr(to + 4)));
  if (!low || !high || *low > *high) return r.add("compost-ratio-unreadable", "ratio", *text);
  asked.ratio_low = *low;
  asked.ratio_high = *high;
  r.refuse_outside(limits, "compost-ratio-out-of-range", "ratio", *low);
  if (*high != *low) r.refuse_outside(limits, "compost-ratio-out-of-range", "ratio", *high);
}

void read_heap(const Session& session, const FieldReader& r, AskedMix& asked) {
  const auto heap = r.volume("heap");
  if (!heap) return;
  asked.litres = quantity::in_litres(*heap);
  r.refuse_outside(session.data.constant("compost-litres-limits"), "compost-litres-out-of-range",
                   "heap", asked.litres);
  const double least = session.data.constant("compost-heap-least").value;
  if (asked.litres < least)
    r.add("heap-too-small", "heap", *r.text("heap"),
          {{"limit", session.words.number({least, 0})},
           {"lacking", session.words.number({least - asked.litres, 0})}});
  for (const HeapPart& part : asked.parts)
    if (!part.what.density)
      r.add("compost-density-missing", "heap", *r.text("heap"), {{"ingredient", part.id}});
}

void read_moisture(const FieldReader& r, AskedMix& asked) {
  asked.moisture = r.number("moisture");
  if (!asked.moisture) return;
  if (*asked.moisture <= 0.0 || *asked.moisture >= 100.0)
    r.add("compost-moisture-impossible", "moisture", *r.text("moisture"));
  if (r.given("ratio") || r.given("heap") || free_parts(asked) != 1)
    r.add("compost-moisture-alone", "moisture", *r.text("moisture"));
}

// Where nothing holds carbon for nitrogen on one side of the goal, no amounts can reach it.
void want_both_sides(const AskedMix& asked, const FieldReader& r) {
  if (asked.moisture || free_parts(asked) == 0) return;
  bool green = false, brown = false;
  std::string all;
  for (const HeapPart& part : asked.parts) {
    green |= part.what.nitrogen > 0.0 && part.what.carbon <= asked.ratio_high * part.what.nitrogen;
    brown |= part.what.carbon >= asked.ratio_low * part.what.nitrogen && part.what.carbon > 0.0;
    all += (all.empty() ? "" : ", ") + part.id;
  }
  if (!green) r.add("compost-no-green", "add", all);
  if (!brown) r.add("compost-no-brown", "add", all);
}

void want_a_size(const AskedMix& asked, const FieldReader& r) {
  const bool sized = asked.litres > 0.0 ||
                     std::any_of(asked.parts.begin(), asked.parts.end(), [](const HeapPart& part) {
                       return part.kg || part.at_least > 0.0;
                     });
  if (!sized) r.add("compost-no-size", "heap", "");
}

void want_all_prices(const AskedMix& asked, Problems& problems) {
  const auto priced = [](const HeapPart& part) { return is_free(part) && part.price; };
  if (std::none_of(asked.parts.begin(), asked.parts.end(), priced)) return;
  for (const HeapPart& part : asked.parts)
    if (is_free(part) && !part.price)
      problems.push_back({"compost-price-missing", part.pointer, part.id, {}});
}

Result<AskedMix> read_asked(const Session& session, const compost::IngredientTable& table,
                            const nlohmann::json& body) {
  Problems problems = check_shape(body, mix_fields, "");
  if (outcome::has_errors(problems)) return outcome::failure(problems);
  const FieldReader r(body, "", session.data.units(), problems);
  AskedMix asked;
  asked.parts = read_heap_parts(session, table, body, problems);
  const bool parts_read = !outcome::has_errors(problems);
  if (parts_read && asked.parts.empty()) r.add("compost-nothing-in", "put", "");
  read_ratio(session, r, asked);
  if (parts_read && !asked.parts.empty()) {
    read_heap(session, r, asked);
    read_moisture(r, asked);
    want_both_sides(asked, r);
    want_a_size(asked, r);
    want_all_prices(asked, problems);
  }
  if (outcome::has_errors(problems)) return outcome::failure(problems);
  return asked;
}

MixWay way_of(const AskedMix& asked) {
  const std::size_t free = free_parts(asked);
  if (free == 0) return MixWay::as_put;
  if (asked.moisture) return MixWay::for_moisture;
  const auto one = std::find_if(asked.parts.begin(), asked.parts.end(), is_free);
  if (one->price) return MixWay::cheapest;
  const bool plain = !one->at_most && one->at_least == 0.0;
  return free == 1 && plain && asked.litres == 0.0 ? MixWay::for_ratio : MixWay::nearest;
}

std::vector<Part> parts_with(const AskedMix& asked, const std::vector<double>& kg,
                             compost::Contents HeapPart::*contents) {
  std::vector<Part> parts;
  for (std::size_t i = 0; i < kg.size(); ++i) parts.push_back({asked.parts[i].*contents, kg[i]});
  return parts;
}

std::vector<compost::Offer> offers_of(const AskedMix& asked) {
  std::vector<compost::Offer> offers;
  for (const HeapPart& part : asked.parts)
    offers.push_back({part.what, part.kg.value_or(part.at_least), part.kg ? part.kg : part.at_most,
                      part.price.value_or(0.0)});
  return offers;
}

Result<std::vector<double>> by_formula(const Session& session, const AskedMix& asked, MixWay way) {
  std::vector<double> kg;
  std::size_t second = 0;
  for (std::size_t i = 0; i < asked.parts.size(); ++i) {
    kg.push_back(asked.parts[i].kg.value_or(0.0));
    if (is_free(asked.parts[i])) second = i;
  }
  const Blend there = compost::blend(parts_with(asked, kg, &HeapPart::what));
  const bool ratio = way == MixWay::for_ratio;
  const double wanted = ratio ? goal(session, asked) : *asked.moisture;
  const auto amount = ratio ? compost::second_for_ratio(there, asked.parts[second].what, wanted)
                            : compost::second_for_moisture(there, asked.parts[second].what, wanted);
  if (!amount) {
    const double now = ratio ? there.ratio().value_or(0.0) : there.moisture();
    return outcome::failure(
        {ratio ? "compost-wrong-way" : "compost-wrong-way-moisture",
         asked.parts[second].pointer,
         asked.parts[second].id,
         {{"now", session.words.number({now, 1})}, {"goal", session.words.number({wanted, 1})}}});
  }
  kg[second] = *amount;
  return kg;
}

outcome::Problem no_mix(const Session& session, const AskedMix& asked, const compost::Aim& aim) {
  const auto offers = offers_of(asked);
  const auto nearest = compost::nearest_mix(offers, aim);
  if (!nearest)
    return {"compost-not-enough", "/heap", session.words.number({asked.litres, 0}) + " L", {}};
  const Blend mix = compost::blend(parts_with(asked, nearest->kg, &HeapPart::what));
  return {"compost-no-mix",
          "/ingredients",
          "",
          {{"low", session.words.number({asked.ratio_low, 1})},
           {"high", session.words.number({asked.ratio_high, 1})},
           {"wettest", session.words.number({aim.moisture_high, 0})},
           {"ratio", session.words.number({mix.ratio().value_or(0.0), 1})},
           {"moisture", session.words.number({mix.moisture(), 0})}}};
}

Result<std::vector<double>> by_programme(const Session& session, const AskedMix& asked,
                                         MixWay way) {
  const double wettest = session.data.constant("compost-moisture").high;
  compost::Aim aim{asked.ratio_low, asked.ratio_high, wettest, asked.litres};
  if (way == MixWay::nearest && !asked.ratio_given)
    aim.ratio_low = aim.ratio_high = goal(session, asked);
  const auto offers = offers_of(asked);
  const auto mix = way == MixWay::cheapest ? compost::cheapest_mix(offers, aim)
                                           : compost::nearest_mix(offers, aim);
  if (!mix) return outcome::failure(no_mix(session, asked, aim));
  return mix->kg;
}

Result<WorkedMix> work_out(const Session& session, const AskedMix& asked) {
  WorkedMix worked;
  worked.way = way_of(asked);
  const bool formula = worked.way == MixWay::for_ratio || worked.way == MixWay::for_moisture;
  if (worked.way == MixWay::as_put)
    for (const HeapPart& part : asked.parts) worked.kg.push_back(*part.kg);
  else {
    auto kg =
        formula ? by_formula(session, asked, worked.way) : by_programme(session, asked, worked.way);
    if (!kg) return outcome::failure(kg.error());
    worked.kg = std::move(*kg);
  }
  const auto parts = parts_with(asked, worked.kg, &HeapPart::what);
  worked.mix = compost::blend(parts);
  worked.at_low = compost::blend(parts_with(asked, worked.kg, &HeapPart::at_low));
  worked.at_high = compost::blend(parts_with(asked, worked.kg, &HeapPart::at_high));
  worked.litres = compost::loose_litres(parts);
  return worked;
}

Json maybe(std::optional<double> value) { return value ? Json(rounded(*value, 6)) : Json(); }

Json parts_json(const AskedMix& asked, const WorkedMix& worked) {
  Json rows = Json::array();
  for (std::size_t i = 0; i < worked.kg.size(); ++i) {
    const HeapPart& part = asked.parts[i];
    rows.push_back({{"ingredient", part.id},
                    {"kg", rounded(worked.kg[i], 6)},
                    {"added", is_free(part)},
                    {"litres", maybe(loose_litres_of(part, worked.kg[i]))},
                    {"nitrogen", rounded(part.what.nitrogen, 6)},
                    {"carbon", rounded(part.what.carbon, 6)},
                    {"carbon_cut", part.cut},
                    {"moisture", rounded(part.what.moisture, 6)}});
  }
  return rows;
}

void put_fields(const Session& session, const AskedMix& asked, const WorkedMix& worked,
                Answer& answer) {
  const auto& moisture = session.data.constant("compost-moisture");
  const double least = session.data.constant("compost-heap-least").value;
  const Blend& mix = worked.mix;
  const auto water = [&](double goal) {
    return rounded(compost::water_for_moisture(mix, goal), 6);
  };
  answer.fields = {
      {"way", way_word(worked.way)},
      {"parts", parts_json(asked, worked)},
      {"kg", rounded(mix.kg, 6)},
      {"c_to_n",
       {{"low", maybe(worked.at_low.ratio())},
        {"likely", maybe(mix.ratio())},
        {"high", maybe(worked.at_high.ratio())}}},
      {"moisture", rounded(mix.moisture(), 6)},
      {"too_wet", mix.moisture() > moisture.high},
      {"water_l",
       {{"low", water(moisture.low)},
        {"likely", water(moisture.value)},
        {"high", water(moisture.high)}}},
      {"litres", maybe(worked.litres)},
      {"lacking_l",
       worked.litres ? Json(rounded(std::max(0.0, least - *worked.litres), 6)) : Json()},
      {"cost",
       worked.way == MixWay::cheapest ? Json(rounded(price_of(asked, worked), 6)) : Json()}};
}

void note_rows(const Session& session, const AskedMix& asked, Answer& answer) {
  for (const HeapPart& part : asked.parts) {
    if (part.row == nullptr) continue;
    for (const auto& row : {std::optional(part.row->nitrogen), part.row->ratio,
                            std::optional(part.row->moisture), part.row->density})
      if (row) answer.used.note(row->origin, "contents of the ingredients");
    if (part.cut) noted(session, "compost-carbon-most", "carbon", answer);
  }
  for (const char* id : {"compost-ratio", "compost-moisture"})
    noted(session, id, "what is taught of the mix", answer);
  noted(session, "compost-heap-least", "least heap", answer);
  note_formula("C:N, moisture, water", answer);
}

// Her own ingredient is taken for one.
bool is_manure(const HeapPart& part) { return part.row == nullptr || part.row->manure; }

void caution_of(const Session& session, const AskedMix& asked, Answer& answer) {
  if (std::any_of(asked.parts.begin(), asked.parts.end(), is_manure))
    add_cautions(session, {"raw-manure", "heap-dust", "heap-place", "compost-candid"}, answer);
  else
    add_cautions(session, {"heap-dust", "heap-place", "compost-candid"}, answer);
}

}  // namespace

const Fields& compost_mix_fields() { return mix_fields; }

Result<Answer> compost_mix(const Session& session, const nlohmann::json& body) {
  const auto table = compost::IngredientTable::parse(session.data);
  if (!table) return outcome::failure(table.error());
  const auto asked = read_asked(session, *table, body);
  if (!asked) return outcome::failure(asked.error());
  const auto worked = work_out(session, *asked);
  if (!worked) return outcome::failure(worked.error());
  Answer answer;
  put_fields(session, *asked, *worked, answer);
  if (answer.fields["lacking_l"].is_number() && answer.fields["lacking_l"] > 0.5)
    answer.problems.push_back(
        {"heap-small",
         "",
         session.words.number({*worked->litres, 0}) + " L",
         {{"lacking", session.words.number({answer.fields["lacking_l"].get<double>(), 0})}},
         outcome::Severity::notice});
  note_rows(session, *asked, answer);
  caution_of(session, *asked, answer);
  if (wants_pages(body)) add_page(session, mix_page(session, *asked, *worked), answer);
  return answer;
}

}  // namespace wheyfield::api
