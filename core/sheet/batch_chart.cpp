#include "sheet/batch_chart.h"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace wheyfield::sheet {
namespace {

// Units of the picture; one is a CSS pixel on a screen of 360.
constexpr double width = 360.0;
constexpr double left = 34.0;
constexpr double right = 352.0;
constexpr double top = 44.0;
constexpr double bottom = 244.0;
constexpr double most_points = 60.0;  // of the band: finer is not seen
constexpr double text_height = 13.0;
constexpr double letter = 6.6;  // usual breadth of one at that height

// Tenths, without the C library's idea of a decimal point.
std::string number(double value) {
  const long long tenths = std::llround(value * 10.0);
  const long long whole = tenths < 0 ? -tenths : tenths;
  return (tenths < 0 ? "-" : "") + std::to_string(whole / 10) + "." + std::to_string(whole % 10);
}

std::string escaped(const std::string& text) {
  std::string out;
  for (const char c : text) {
    switch (c) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      default:
        out += static_cast<unsigned char>(c) < 0x20 ? ' ' : c;
    }
  }
  return out;
}

// Letters, not bytes: what follows the first byte of one is not counted.
double breadth(const std::string& text) {
  const auto letters = std::count_if(text.begin(), text.end(), [](char c) {
    return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
  });
  return letter * static_cast<double>(letters);
}

// The first letters that fit, with a mark where some are left out.
std::string fitting(const std::string& text, double room) {
  if (breadth(text) <= room) return text;
  std::string out;
  double used = letter;
  for (std::size_t i = 0; i < text.size();) {
    std::size_t next = i + 1;
    while (next < text.size() && (static_cast<unsigned char>(text[next]) & 0xC0U) == 0x80U) ++next;
    used += letter;
    if (used > room) break;
    out += text.substr(i, next - i);
    i = next;
  }
  return out + "…";
}

class Drawing {
 public:
  explicit Drawing(const BatchChart& chart) : chart_(chart) {}

  std::string draw() {
    out_ =
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 360 330\" width=\"100%\" "
        "role=\"img\" font-family=\"sans-serif\" font-size=\"13\" fill=\"#000\">\n<title>" +
        escaped(chart_.title) + "</title>\n<desc>" + escaped(chart_.description) + "</desc>\n" +
        "<rect width=\"360\" height=\"330\" fill=\"#fff\"/>\n";
    text(width / 2, 17, fitting(chart_.title, width - 16), "middle", " font-weight=\"bold\"");
    text(6, top - 8, chart_.y_title, "start");
    band();
    scale();
    for (const BatchChart::Line& line : chart_.lines) threshold(line);
    for (const BatchChart::Reading& reading : chart_.readings) read(reading);
    marks();
    window();
    key();
    return out_ + "</svg>\n";
  }

 private:
  double x(double hours) const {
    const double share = std::clamp(hours / chart_.hours_shown, 0.0, 1.0);
    return left + share * (right - left);
  }
  static double y(double ph) {
    const double share = (chart_top_ph - ph) / (chart_top_ph - chart_bottom_ph);
    return top + std::clamp(share, 0.0, 1.0) * (bottom - top);
  }
  bool shown(double hours) const { return hours >= 0.0 && hours <= chart_.hours_shown; }

  void text(double at, double base, const std::string& words, const char* anchor,
            const std::string& more = "") {
    if (words.empty()) return;
    out_ += "<text x=\"" + number(at) + "\" y=\"" + number(base) + "\" text-anchor=\"" + anchor +
            "\"" + more + ">" + escaped(words) + "</text>\n";
  }
  void line(double x1, double y1, double x2, double y2, const std::string& style) {
    out_ += "<line x1=\"" + number(x1) + "\" y1=\"" + number(y1) + "\" x2=\"" + number(x2) +
            "\" y2=\"" + number(y2) + "\" " + style + "/>\n";
  }

  void band() {
    std::string points, likely;
    std::vector<const BatchChart::BandPoint*> inside;
    double next = 0.0;
    for (const BatchChart::BandPoint& point : chart_.band) {
      if (!shown(point.hours) || point.hours < next) continue;
      inside.push_back(&point);
      next = point.hours + chart_.hours_shown / most_points;
    }
    if (inside.size() < 2) return;
    for (const auto* point : inside) {
      points += number(x(point->hours)) + "," + number(y(point->high)) + " ";
      likely += number(x(point->hours)) + "," + number(y(point->likely)) + " ";
    }
    for (auto point = inside.rbegin(); point != inside.rend(); ++point)
      points += number(x((*point)->hours)) + "," + number(y((*point)->low)) + " ";
    points.pop_back();
    likely.pop_back();
    out_ += "<polygon points=\"" + points + "\" fill=\"#d4d4d4\"/>\n<polyline points=\"" + likely +
            "\" fill=\"none\" stroke=\"#333\" stroke-width=\"2\"/>\n";
  }

  void scale() {
    for (int ph = static_cast<int>(chart_bottom_ph); ph <= static_cast<int>(chart_top_ph); ++ph) {
      line(left - 4, y(ph), left, y(ph), "stroke=\"#000\"");
      text(left - 7, y(ph) + 4.5, std::to_string(ph), "end");
    }
    line(left, top, left, bottom, "stroke=\"#000\"");
    line(left, bottom, right, bottom, "stroke=\"#000\"");
    double free_from = 0.0;
    for (const BatchChart::Tick& tick : chart_.ticks) {
      if (!shown(tick.hours)) continue;
      const double at = x(tick.hours);
      line(at, bottom, at, bottom + 4, "stroke=\"#000\"");
      const double half = breadth(tick.label) / 2;
      if (at - half < free_from || at + half > width) continue;
      text(at, bottom + 17, tick.label, "middle");
      free_from = at + half + letter;
    }
  }

  void threshold(const BatchChart::Line& mark) {
    line(left, y(mark.ph), right, y(mark.ph), "stroke=\"#000\" stroke-dasharray=\"2 4\"");
    text(right - 2, y(mark.ph) - 3, fitting(mark.label, (right - left) / 2), "end",
         " stroke=\"#fff\" stroke-width=\"3\" paint-order=\"stroke\"");
  }

  void read(const BatchChart::Reading& reading) {
    if (!shown(reading.hours)) return;
    const double at = x(reading.hours);
    line(at, y(reading.ph + reading.half_step), at, y(reading.ph - reading.half_step),
         "stroke=\"#000\" stroke-width=\"2\"");
    out_ += "<circle cx=\"" + number(at) + "\" cy=\"" + number(y(reading.ph)) +
            "\" r=\"5\" fill=\"#fff\" stroke=\"#000\" stroke-width=\"2\"/>\n";
  }

  void marks() {
    double free_from = left;
    for (const BatchChart::Mark& mark : chart_.marks) {
      if (!shown(mark.hours)) continue;
      const double at = x(mark.hours);
      line(at, top, at, bottom, "stroke=\"#000\" stroke-dasharray=\"6 3\"");
      const double half = breadth(mark.label) / 2;
      const double middle = std::clamp(at, left + half, right - half);
      if (middle - half < free_from) continue;
      text(middle, top - 4, mark.label, "middle");
      free_from = middle + half + letter;
    }
  }

  void window() {
    if (!chart_.use || !shown(chart_.use->early)) return;
    const double from = x(chart_.use->early), to = x(chart_.use->late);
    const double base = bottom + 30;
    line(from, base, to, base, "stroke=\"#000\" stroke-width=\"6\"");
    if (shown(chart_.use->likely)) {
      const double at = x(chart_.use->likely);
      line(at, base - 7, at, base + 7, "stroke=\"#000\" stroke-width=\"3\"");
    }
    const double room = breadth(chart_.use->label);
    const bool beside = to + 6 + room <= width;
    if (beside)
      text(to + 6, base + 4.5, chart_.use->label, "start");
    else
      text(std::max(from - 6, left + room), base + 4.5, fitting(chart_.use->label, from), "end");
  }

  // What the signs mean, a line each.
  void key() {
    const double first = bottom + 52;
    out_ += "<rect x=\"8\" y=\"" + number(first - 10) +
            "\" width=\"20\" height=\"12\" fill=\"#d4d4d4\"/>\n";
    line(8, first - 4, 28, first - 4, "stroke=\"#333\" stroke-width=\"2\"");
    text(left, first, fitting(chart_.band_label, width - left - 8), "start");
    if (chart_.readings.empty()) return;
    const double second = first + text_height + 7;
    line(18, second - 12, 18, second + 4, "stroke=\"#000\" stroke-width=\"2\"");
    out_ += "<circle cx=\"18.0\" cy=\"" + number(second - 4) +
            "\" r=\"5\" fill=\"#fff\" stroke=\"#000\" stroke-width=\"2\"/>\n";
    text(left, second, fitting(chart_.read_label, width - left - 8), "start");
  }

  const BatchChart& chart_;
  std::string out_;
};

}  // namespace

std::string batch_chart_svg(const BatchChart& chart) { return Drawing(chart).draw(); }

}  // namespace wheyfield::sheet
