// The code of this device, that stands in every note it writes.
#pragma once

#include <optional>
#include <string>

namespace wheyfield::cli {

struct DeviceCode {
  std::string code;
  bool fresh = false;  // was made just now
};

// The code kept in `file`; where there is none yet, six drawn letters and digits, which are then
// kept there. Nothing when it cannot be kept: a device must not change its code from run to run.
std::optional<DeviceCode> device_code(const std::string& file);

}  // namespace wheyfield::cli
