// deflate_pipe pack|unpack: standard input through zlib to standard output, as the program does it
// with team files. For tests/hosts/deflate.test.mjs. Ends with 1 when the bytes cannot be unpacked.
#include <iostream>
#include <iterator>
#include <string>

#include "cli/deflate.h"
#include "journal/packed_notes.h"

int main(int count, char** words) {
  const std::string what = count == 2 ? words[1] : "";
  if (what != "pack" && what != "unpack") return 2;
  const std::string in{std::istreambuf_iterator<char>(std::cin), {}};
  if (what == "pack") {
    std::cout << wheyfield::cli::deflate(in);
    return 0;
  }
  const auto out = wheyfield::cli::inflate(in, wheyfield::journal::most_unpacked);
  if (!out || out->too_large) return 1;
  std::cout << out->text;
  return 0;
}
