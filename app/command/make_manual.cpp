// Run when the program is built: writes the manual page and the completions into the folder named.
#include "app/command/manual.hpp"
#include "app/text/version.hpp"

#include <filesystem>
#include <fstream>
#include <iostream>

int main(int argc, char** argv) {
  if (argc != 2) return 2;
  using namespace evenpull;
  const CommandWords words = command_words();
  const std::filesystem::path folder = argv[1];
  std::filesystem::create_directories(folder);
  const std::pair<const char*, std::string> files[] = {{"evenpull.1", manual_page(words, version())},
                                                       {"evenpull.bash", bash_completion(words)},
                                                       {"_evenpull", zsh_completion(words)},
                                                       {"evenpull.fish", fish_completion(words)}};
  for (const auto& [name, text] : files) {
    std::ofstream file(folder / name, std::ios::binary);
    if (!(file << text) || !file.flush()) {
      std::cerr << "cannot write " << (folder / name).string() << '\n';
      return 1;
    }
  }
}
