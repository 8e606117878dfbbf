#include "app/commands.hpp"

#include <iostream>

int main(int argc, char** argv) {
  const auto parsed = evenpull::parse_command_line(argc, argv);
  return parsed.request ? evenpull::run_request(*parsed.request, std::cout, std::cerr) : parsed.exit_code;
}
