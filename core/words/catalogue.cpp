#include "words/catalogue.h"

#include <cmath>
#include <unordered_map>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "quantity/quantity.h"
#include "words/plural.h"

namespace wheyfield::words {

using calendar::Date;

struct Catalogue::Impl {
  std::string language, decimal = ".", group = ",", plural = "one-other";
  std::unordered_map<std::string, std::map<std::string, std::string>> sentences;
};

Catalogue::Catalogue() : impl_(std::make_unique<Impl>()) {}
Catalogue::Catalogue(Catalogue&&) noexcept = default;
Catalogue& Catalogue::operator=(Catalogue&&) noexcept = default;
Catalogue::~Catalogue() = default;

outcome::Result<Catalogue> Catalogue::parse(std::string_view json) {
  const auto bad = [](const char* field) {
    return outcome::failure({"words-unreadable", field, "", {}});
  };
  const auto doc = nlohmann::json::parse(json, nullptr, false);
  if (!doc.is_object() || !doc.contains("sentences") || !doc["sentences"].is_object())
    return bad("/words/sentences");
  Catalogue catalogue;
  Impl& impl = *catalogue.impl_;
  for (const auto& [key, member] : {std::pair{"language", &impl.language},
                                    {"decimal", &impl.decimal},
                                    {"group", &impl.group},
                                    {"plural", &impl.plural}})
    if (doc.contains(key) && doc[key].is_string()) *member = doc[key].get<std::string>();
  for (const auto& [key, value] : doc["sentences"].items()) {
    auto& forms = impl.sentences[key];
    if (value.is_string()) {
      forms["other"] = value.get<std::string>();
    } else if (value.is_object()) {
      for (const auto& [form, text] : value.items())
        if (text.is_string()) forms[form] = text.get<std::string>();
    }
    if (forms.count("other") == 0) return bad("/words/sentences");
  }
  return catalogue;
}

const std::string& Catalogue::language() const { return impl_->language; }

bool Catalogue::has(std::string_view key) const {
  return impl_->sentences.count(std::string(key)) > 0;
}

std::string Catalogue::number(Decimal number) const {
  std::string text =
      fmt::format("{:.{}f}", quantity::rounded(number.value, number.places), number.places);
  const std::size_t point = text.find('.');
  std::string whole = text.substr(0, point);
  std::string decimals = point == std::string::npos ? "" : text.substr(point + 1);
  if (number.trim)
    while (!decimals.empty() && decimals.back() == '0') decimals.pop_back();
  const bool negative = whole[0] == '-';
  if (negative) whole.erase(0, 1);
  for (std::size_t at = whole.size(); at > 3; at -= 3) whole.insert(at - 3, impl_->group);
  const bool zero = whole == "0" && decimals.find_first_not_of('0') == std::string::npos;
  return (negative && !zero ? "-" : "") + whole +
         (decimals.empty() ? "" : impl_->decimal + decimals);
}

std::string Catalogue::date(Date date) const {
  return text("date.short",
              {{"weekday", text("weekday.short." + std::string(weekday_key(date.weekday())))},
               {"day", fmt::to_string(date.day())},
               {"month", text("month.short." + fmt::to_string(date.month()))}});
}

std::string Catalogue::long_date(Date date) const {
  return text("date.long",
              {{"weekday", text("weekday." + std::string(weekday_key(date.weekday())))},
               {"day", fmt::to_string(date.day())},
               {"month", text("month." + fmt::to_string(date.month()))},
               {"year", fmt::to_string(date.year())}});
}

std::string Catalogue::span(Date first, Date last) const {
  const auto month = [&](Date d) { return text("month.short." + fmt::to_string(d.month())); };
  if (first == last) return date(first);
  const bool same = first.month() == last.month() && first.year() == last.year();
  return text(same ? "date.span-same-month" : "date.span",
              {{"first_day", fmt::to_string(first.day())},
               {"first_month", month(first)},
               {"last_day", fmt::to_string(last.day())},
               {"last_month", month(last)}});
}

namespace {

std::string shown(const Catalogue& words, const Value& value) {
  return std::visit(
      [&](const auto& held) -> std::string {
        using T = std::decay_t<decltype(held)>;
        if constexpr (std::is_same_v<T, std::string>) return held;
        if constexpr (std::is_same_v<T, long long>)
          return words.number({static_cast<double>(held), 0});
        if constexpr (std::is_same_v<T, Decimal>) return words.number(held);
        if constexpr (std::is_same_v<T, Date>) return words.date(held);
      },
      value.held());
}

double counted(const Values& values) {
  const auto n = values.find("n");
  if (n == values.end()) return 0;
  if (const auto* count = std::get_if<long long>(&n->second.held()))
    return static_cast<double>(*count);
  if (const auto* number = std::get_if<Decimal>(&n->second.held())) return number->value;
  return 0;
}

std::string filled(const Catalogue& words, const std::string& pattern, const Values& values) {
  std::string out;
  for (std::size_t at = 0; at < pattern.size();) {
    const std::size_t open = pattern.find('{', at);
    const std::size_t close = open == std::string::npos ? open : pattern.find('}', open);
    if (close == std::string::npos) return out + pattern.substr(at);
    const auto value = values.find(pattern.substr(open + 1, close - open - 1));
    out += pattern.substr(at, open - at);
    out += value == values.end() ? pattern.substr(open, close - open + 1)
                                 : shown(words, value->second);
    at = close + 1;
  }
  return out;
}

}  // namespace

std::string Catalogue::text(std::string_view key, const Values& values) const {
  const auto found = impl_->sentences.find(std::string(key));
  if (found == impl_->sentences.end()) return fmt::format("[{}]", key);
  const auto& forms = found->second;
  const auto form = forms.size() == 1
                        ? forms.begin()
                        : forms.find(std::string(plural_category(impl_->plural, counted(values))));
  return filled(*this, form == forms.end() ? forms.at("other") : form->second, values);
}

Text Catalogue::sentence(std::string_view key, Values values) const {
  std::string shown_text = text(key, values);
  return {std::string(key), std::move(values), std::move(shown_text)};
}

nlohmann::ordered_json to_json(const Text& text) {
  nlohmann::ordered_json values = nlohmann::ordered_json::object();
  for (const auto& [name, value] : text.values)
    std::visit(
        [&, &key = name](const auto& held) {
          using T = std::decay_t<decltype(held)>;
          if constexpr (std::is_same_v<T, Decimal>)
            values[key] = quantity::rounded(held.value, 6);
          else if constexpr (std::is_same_v<T, Date>)
            values[key] = held.iso();
          else
            values[key] = held;
        },
        value.held());
  return {{"key", text.key}, {"values", std::move(values)}, {"text", text.text}};
}

}  // namespace wheyfield::words
