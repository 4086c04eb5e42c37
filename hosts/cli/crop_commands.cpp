#include "cli/commands.h"
#include "cli/weather_csv.h"

namespace wheyfield::cli {
namespace {

using nlohmann::json;

using Read = Reading<Document> (*)(const std::string& path);

// A body made of flags and of tables read from files.
class Request {
 public:
  explicit Request(const Host& host) {
    asked_.json = json::object();
    if (!host.arguments.json) asked_.json["pages"] = true;
  }

  void put(const char* name, const std::string& value) {
    if (!value.empty()) asked_.json[name] = value;
  }

  // The event and its day, parted by the last blank.
  void put_seen(const std::vector<std::string>& seen) {
    for (const std::string& one : seen) {
      const std::size_t blank = one.rfind(' ');
      json event = {{"what", one.substr(0, blank)}};
      if (blank != std::string::npos) event["on"] = one.substr(blank + 1);
      asked_.json["seen"].push_back(std::move(event));
    }
  }

  void put_table(const char* name, const std::string& file, Read read) {
    if (file.empty()) return;
    Reading<Document> rows = read(file);
    if (!rows) {
      problems_.insert(problems_.end(), rows.error().begin(), rows.error().end());
      return;
    }
    asked_.json[name] = std::move(rows->json);
    asked_.places.merge(std::move(rows->places));
  }

  // `next` may speak of the answer's {event}.
  int ask(Host& host, const char* action, const std::string& next) const {
    if (!problems_.empty()) return host.refuse(problems_);
    const nlohmann::ordered_json answer = host.ask(action, asked_.json);
    const int code = host.show(answer, asked_);
    if (code == exit_codes::fine)
      host.remark(host.words.text(next, {{"event", answer.value("event", "")}}));
    return code;
  }

 private:
  Document asked_;
  InputProblems problems_;
};

}  // namespace

int crop_windows(Host& host) {
  const CropArguments& a = host.arguments.planting;
  Request request(host);
  request.put("crop", a.crop);
  request.put("sowing", a.sowing);
  request.put("sown_on", a.sown_on);
  request.put("nursery_on", a.nursery_on);
  request.put("seed", a.seed);
  request.put("harvest_after", a.harvest_after);
  request.put("own_count", a.own_count);
  request.put("station", a.station);
  request.put("altitude", a.altitude);
  request.put_seen(a.seen);
  request.put_table("readings", a.temperatures, read_readings_file);
  request.put_table("months", a.months, read_months_file);
  return request.ask(host, "crop.windows", "cli.next.crop-seen");
}

int crop_onset(Host& host) {
  const CropArguments& a = host.arguments.planting;
  Request request(host);
  request.put("rule", a.rule);
  request.put("earliest", a.earliest);
  request.put_table("rain", a.rain, read_rain_file);
  return request.ask(host, "crop.onset", "cli.next.crop-windows");
}

int crop_list(Host& host) { return Request(host).ask(host, "crop.list", "cli.next.crop-windows"); }

}  // namespace wheyfield::cli
