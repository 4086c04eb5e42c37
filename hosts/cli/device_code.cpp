#include "cli/device_code.h"

#include <filesystem>
#include <fstream>
#include <random>

#include "cli/write_file.h"
#include "journal/event.h"

namespace wheyfield::cli {
namespace {

// Without those that are mistaken for each other on paper: 0 and O, 1 and I.
constexpr char letters[] = "ABCDEFGHJKLMNPQRSTUVWXYZ23456789";

std::string drawn() {
  std::random_device device;
  std::string code;
  for (int i = 0; i < 6; ++i) code += letters[device() % (sizeof letters - 1)];
  return code;
}

}  // namespace

std::optional<DeviceCode> device_code(const std::string& file) {
  if (file.empty()) return std::nullopt;
  std::ifstream in(file);
  std::string code;
  if (in && in >> code && journal::is_device_code(code)) return DeviceCode{code, false};
  std::error_code failed;
  std::filesystem::create_directories(std::filesystem::path(file).parent_path(), failed);
  code = drawn();
  if (failed || !write_file(file, code + "\n")) return std::nullopt;
  return DeviceCode{code, true};
}

}  // namespace wheyfield::cli
