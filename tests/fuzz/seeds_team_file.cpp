// seeds_team_file FOLDER: writes the inputs that fuzz_team_file begins with.
#include <filesystem>
#include <fstream>

#include "support/group_notes.h"
#include "support/random_notes.h"
#include "support/take_in.h"

namespace {

using wheyfield::testing::pointers_to;

void write_seed(const std::filesystem::path& folder, const std::string& name,
                const std::string& bytes) {
  std::ofstream(folder / name, std::ios::binary) << bytes;
}

}  // namespace

int main(int count, char** words) {
  if (count != 2) return 2;
  const std::filesystem::path folder = words[1];
  std::filesystem::create_directories(folder);
  const auto day = wheyfield::testing::GroupNotes(1).day();
  write_seed(folder, "day.txt", wheyfield::testing::team_file(pointers_to(day)));
  for (int notes = 0; notes < 12; ++notes) {
    const auto events =
        wheyfield::testing::RandomNotes(static_cast<std::uint64_t>(notes) + 1).events(notes);
    const std::string text = wheyfield::journal::pack(pointers_to(events));
    const std::string name = std::to_string(notes);
    write_seed(folder, name + ".json", text);
    write_seed(folder, name + ".zlib", wheyfield::cli::deflate(text));
    write_seed(folder, name + ".txt", wheyfield::testing::team_file(pointers_to(events)));
  }
  return 0;
}
