// What the program's end tells the shell. Listed in every --help.
#pragma once

namespace wheyfield::cli::exit_codes {

constexpr int fine = 0;
constexpr int problems = 1;    // ran, but found problems in the data
constexpr int wrong_use = 2;   // a flag or word of the command line
constexpr int unreadable = 3;  // input cannot be read
constexpr int question = 4;    // a person must decide
constexpr int unwritable = 5;  // output cannot be written
constexpr int interrupted = 130;

}  // namespace wheyfield::cli::exit_codes
