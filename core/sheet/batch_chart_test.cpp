#include "sheet/batch_chart.h"

#include <cstdint>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "numerics/stream.h"

namespace wheyfield::sheet {
namespace {

BatchChart warm_chart() {
  BatchChart chart;
  chart.title = "Batch A1: set";
  chart.description = "Set on Friday.";
  chart.hours_shown = 72;
  chart.ticks = {{9, "Fri 12 Mar"}, {33, "Sat 13 Mar"}, {57, "Sun 14 Mar"}};
  for (int hour = 0; hour <= 100; ++hour)
    chart.band.push_back({1.0 * hour, 6.5 - 0.03 * hour, 6.6 - 0.025 * hour, 6.7 - 0.02 * hour});
  chart.readings = {{18, 5.0, 0.25}};
  chart.lines = {{4.6, "set (4.6)"}, {4.2, "sour enough (4.2)"}};
  chart.use = BatchChart::Window{30, 36, 48, "to strain"};
  chart.marks = {{20, "now"}, {36, "look"}};
  chart.y_title = "pH";
  chart.band_label = "8 in 10";
  chart.read_label = "what was read";
  return chart;
}

int count(const std::string& text, const std::string& part) {
  int n = 0;
  for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++n;
  return n;
}

// Every element that opens also closes, and nothing else stands between angle brackets.
bool is_balanced(const std::string& svg) {
  std::vector<std::string> open;
  for (std::size_t at = svg.find('<'); at != std::string::npos; at = svg.find('<', at + 1)) {
    const std::size_t end = svg.find('>', at);
    if (end == std::string::npos) return false;
    std::string tag = svg.substr(at + 1, end - at - 1);
    if (tag.find('<') != std::string::npos || count(tag, "\"") % 2 != 0) return false;
    if (tag[0] == '/') {
      if (open.empty() || open.back() != tag.substr(1)) return false;
      open.pop_back();
    } else if (tag.back() != '/') {
      open.push_back(tag.substr(0, tag.find(' ')));
    }
  }
  return open.empty();
}

// All numbers of the attributes that place something; whole text must be read.
std::vector<double> placed(const std::string& svg) {
  std::vector<double> all;
  for (const char* name :
       {" x=\"", " y=\"", " x1=\"", " y1=\"", " x2=\"", " y2=\"", " cx=\"", " cy=\"", "points=\""})
    for (std::size_t at = svg.find(name); at != std::string::npos; at = svg.find(name, at + 1)) {
      const std::size_t from = at + std::string(name).size();
      std::string numbers = svg.substr(from, svg.find('"', from) - from);
      for (char& c : numbers)
        if (c == ',') c = ' ';
      for (std::size_t k = 0; k < numbers.size();) {
        std::size_t used = 0;
        all.push_back(std::stod(numbers.substr(k), &used));
        k += used + 1;
      }
    }
  return all;
}

TEST(SheetBatchChart, HoldsWhatItWasGiven) {
  const std::string svg = batch_chart_svg(warm_chart());
  EXPECT_TRUE(is_balanced(svg)) << svg;
  EXPECT_NE(svg.find("viewBox=\"0 0 360 330\""), std::string::npos);
  EXPECT_NE(svg.find("role=\"img\""), std::string::npos);
  EXPECT_NE(svg.find("<title>Batch A1: set</title>"), std::string::npos);
  EXPECT_NE(svg.find("<desc>Set on Friday.</desc>"), std::string::npos);
  for (const char* label : {"Fri 12 Mar", "Sun 14 Mar", "set (4.6)", "sour enough (4.2)",
                            "to strain", "now", "look", "what was read"})
    EXPECT_NE(svg.find(std::string(">") + label + "</text>"), std::string::npos) << label;
  EXPECT_EQ(count(svg, "<polygon"), 1);
  EXPECT_EQ(count(svg, "<circle"), 2);  // the reading and its key
  EXPECT_EQ(count(svg, "script"), 0);
  EXPECT_EQ(count(svg, "href"), 0);
}

TEST(SheetBatchChart, ReadingsStandWhereTheyWereRead) {
  BatchChart chart = warm_chart();
  chart.hours_shown = 318.0;  // a unit an hour from 34 on
  chart.readings = {{100, 5.0, 0.25}};
  const std::string svg = batch_chart_svg(chart);
  // pH 7 to 3 over 200 units from 44 on: 5 at 144, 5.25 at 131.5, 4.75 at 156.5.
  EXPECT_NE(svg.find("<circle cx=\"134.0\" cy=\"144.0\""), std::string::npos) << svg;
  EXPECT_NE(svg.find("x1=\"134.0\" y1=\"131.5\" x2=\"134.0\" y2=\"156.5\""), std::string::npos);
}

TEST(SheetBatchChart, TextsAreEscaped) {
  BatchChart chart = warm_chart();
  chart.title = "<b>&\"";
  chart.marks = {{20, "a<b\n&"}};
  const std::string svg = batch_chart_svg(chart);
  EXPECT_TRUE(is_balanced(svg));
  EXPECT_NE(svg.find("<title>&lt;b&gt;&amp;&quot;</title>"), std::string::npos);
  EXPECT_NE(svg.find("a&lt;b &amp;"), std::string::npos);
}

TEST(SheetBatchChart, LabelsOfTicksDoNotTouch) {
  BatchChart chart = warm_chart();
  chart.hours_shown = 600;
  chart.ticks.clear();
  for (int day = 0; day < 25; ++day) chart.ticks.push_back({24.0 * day, "Fri 12 Mar"});
  const std::string svg = batch_chart_svg(chart);
  EXPECT_LE(count(svg, ">Fri 12 Mar<"), 5);
  EXPECT_GE(count(svg, ">Fri 12 Mar<"), 3);
}

TEST(SheetBatchChart, LongWordsAreCutAndMarked) {
  BatchChart chart = warm_chart();
  chart.title = std::string(200, 'x');
  chart.band_label = "ö" + std::string(120, 'x');
  const std::string svg = batch_chart_svg(chart);
  EXPECT_TRUE(is_balanced(svg));
  EXPECT_NE(svg.find("xx…</text>"), std::string::npos);
  EXPECT_NE(svg.find(">öxx"), std::string::npos);
}

TEST(SheetBatchChart, WithoutReadingsWindowOrBand) {
  BatchChart chart = warm_chart();
  chart.readings.clear();
  chart.use.reset();
  chart.band.clear();
  chart.marks.clear();
  const std::string svg = batch_chart_svg(chart);
  EXPECT_TRUE(is_balanced(svg));
  EXPECT_EQ(count(svg, "<circle"), 0);
  EXPECT_EQ(count(svg, "<polygon"), 0);
  EXPECT_EQ(svg.find("what was read"), std::string::npos);
}

TEST(SheetBatchChart, StaysSmallHoweverLongTheBandIs) {
  BatchChart chart = warm_chart();
  chart.hours_shown = 600;
  chart.band.clear();
  for (int hour = 0; hour <= 600; ++hour) chart.band.push_back({1.0 * hour, 4.0, 4.5, 5.0});
  EXPECT_LT(batch_chart_svg(chart).size(), 6000u);
}

TEST(SheetBatchChart, NothingIsDrawnOutside) {
  for (std::uint64_t seed = 0; seed < 200; ++seed) {
    numerics::Stream stream(seed, 0, 0);
    const auto up_to = [&](int most) {
      return static_cast<double>(stream.below(static_cast<std::uint32_t>(most)));
    };
    BatchChart chart = warm_chart();
    chart.hours_shown = 1.0 + up_to(700);
    chart.readings.clear();
    for (int i = 0; i < 8; ++i)
      chart.readings.push_back({up_to(900) - 50.0, up_to(15) - 0.5, 0.05 * up_to(10)});
    const double early = up_to(600);
    chart.use = BatchChart::Window{early, early + up_to(50), early + 50 + up_to(300), "to strain"};
    chart.marks = {{up_to(900), "now"}, {up_to(900), "look"}};
    const std::string svg = batch_chart_svg(chart);
    ASSERT_TRUE(is_balanced(svg)) << seed;
    ASSERT_EQ(count(svg, "nan") + count(svg, "inf"), 0) << seed;
    for (const double at : placed(svg)) {
      ASSERT_GE(at, 0.0) << seed;
      ASSERT_LE(at, 360.0) << seed;
    }
  }
}

}  // namespace
}  // namespace wheyfield::sheet
