#include "app/command/commands.hpp"
#include "app/output/interruption.hpp"

#include <iostream>

int main(int argc, char** argv) {
  evenpull::begin_process();
  const auto parsed = evenpull::parse_command_line(argc, argv);
  return evenpull::past_interruption(parsed.request ? evenpull::run_request(*parsed.request, std::cout, std::cerr)
                                                    : evenpull::after_printing(parsed.exit_code, std::cout, std::cerr));
}
