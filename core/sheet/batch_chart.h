// How a batch turns sour, drawn: the band of its pH, what was read, and the days on which it can be
// strained. A picture of 360 units across, whole in itself, that reads in black and white.
//
// Hours run from the left, pH falls downwards. The band is grey, its middle a line; a reading is a
// bar as long as the printed step with a ring in it; the days to strain are a bracket over the time
// axis. What lies outside is cut off; labels that would touch another are left out. Texts are
// finished words and are escaped here; numbers have one decimal and a point.
#pragma once

#include <optional>
#include <string>
#include <vector>

namespace wheyfield::sheet {

struct BatchChart {
  struct Tick {
    double hours;
    std::string label;
  };
  struct BandPoint {
    double hours;  // rising
    double low;
    double likely;
    double high;
  };
  struct Reading {
    double hours;
    double ph;
    double half_step;  // of its scale [pH]
  };
  struct Line {
    double ph;
    std::string label;
  };
  struct Window {
    double early;
    double likely;
    double late;
    std::string label;
  };
  struct Mark {
    double hours;
    std::string label;
  };

  std::string title;
  std::string description;   // in words, for who cannot see it
  double hours_shown = 0.0;  // > 0
  std::vector<Tick> ticks;
  std::vector<BandPoint> band;
  std::vector<Reading> readings;
  std::vector<Line> lines;
  std::optional<Window> use;
  std::vector<Mark> marks;  // now, the next look
  std::string y_title;
  std::string band_label;  // of the key: what grey and line are
  std::string read_label;  // what bar and ring are
};

// Highest and lowest pH drawn.
inline constexpr double chart_top_ph = 7.0;
inline constexpr double chart_bottom_ph = 3.0;

std::string batch_chart_svg(const BatchChart& chart);

}  // namespace wheyfield::sheet
