#include "tests/cases/command.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <fstream>
#include <sstream>
#include <thread>

#include <fcntl.h>
#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#ifdef EVENPULL_COMMAND

namespace evenpull_test {

namespace fs = std::filesystem;

Folder::Folder() {
  std::string name = (fs::temp_directory_path() / "evenpull-cases-XXXXXX").string();
  REQUIRE(mkdtemp(name.data()) != nullptr);
  path = name;
}

Folder::~Folder() {
  std::error_code ignored;
  fs::remove_all(path, ignored);
}

std::string Folder::write(const std::string& name, const std::string& text) const {
  std::ofstream(path / name, std::ios::binary) << text;
  return (path / name).string();
}

std::string text_of(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

std::string quoted(const fs::path& p) { return '"' + p.string() + '"'; }

fs::path case_path(const std::string& name) { return fs::path(EVENPULL_CASES_DIR) / (name + ".toml"); }

std::vector<std::string> entries(const fs::path& folder) {
  std::vector<std::string> names;
  for (const auto& e : fs::directory_iterator(folder)) names.push_back(e.path().filename().string());
  std::sort(names.begin(), names.end());
  return names;
}

std::size_t Outcome::lines_of_errors() const {
  // What takes over two seconds says a line a part, "  12 %  looking for an order": no trouble.
  std::size_t n = 0;
  std::istringstream lines(err);
  for (std::string line; std::getline(lines, line);) n += line.find(" %  ") > 3;
  return n;
}

Running::Running(const std::vector<std::string>& arguments, const std::function<void()>& prepare) {
  const std::string out = kept_ / "out", err = kept_ / "err";
  std::vector<char*> argv{const_cast<char*>("evenpull")};
  for (const auto& a : arguments) argv.push_back(const_cast<char*>(a.c_str()));
  argv.push_back(nullptr);
  process_ = fork();
  REQUIRE(process_ >= 0);
  if (process_ > 0) return;
  dup2(open(out.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600), STDOUT_FILENO);
  dup2(open(err.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600), STDERR_FILENO);
  for (const int s : {SIGINT, SIGTERM, SIGHUP, SIGPIPE, SIGXFSZ}) signal(s, SIG_DFL);
  if (prepare) prepare();
  execv(EVENPULL_COMMAND, argv.data());
  _exit(127);
}

Running::~Running() {
  if (ended_) return;
  kill(process_, SIGKILL);
  kill(process_, SIGCONT);
  waitpid(process_, &status_, 0);
}

void Running::send(int signal) const { REQUIRE(kill(process_, signal) == 0); }

bool Running::ended() {
  if (!ended_) ended_ = waitpid(process_, &status_, WNOHANG) == process_;
  return ended_;
}

Outcome Running::wait() {
  if (!ended_) REQUIRE(waitpid(process_, &status_, 0) == process_);
  ended_ = true;
  constexpr int code_beyond_signal = 128;
  return {WIFEXITED(status_) ? WEXITSTATUS(status_) : code_beyond_signal + WTERMSIG(status_), text_of(kept_ / "out"),
          text_of(kept_ / "err")};
}

Outcome run_command(const std::vector<std::string>& arguments, const std::function<void()>& prepare) {
  return Running(arguments, prepare).wait();
}

void wait_until(const std::function<bool()>& so, const char* what) {
  using Clock = std::chrono::steady_clock;
  const auto end = Clock::now() + std::chrono::seconds(60);
  while (!so()) {
    INFO(what);
    REQUIRE(Clock::now() < end);
    std::this_thread::sleep_for(std::chrono::milliseconds(1));
  }
}

}  // namespace evenpull_test

#endif
