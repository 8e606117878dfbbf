// The command itself, started as a shell would start it, with what a test wants to be different.
#pragma once

#include <filesystem>
#include <functional>
#include <string>
#include <vector>

#include <sys/types.h>

namespace evenpull_test {

struct Folder {
  std::filesystem::path path;
  Folder();
  ~Folder();
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;

  std::string write(const std::string& name, const std::string& text) const;
  std::filesystem::path operator/(const std::string& name) const { return path / name; }
};

std::string text_of(const std::filesystem::path& path);
std::string quoted(const std::filesystem::path& p);
std::filesystem::path case_path(const std::string& name);
/// Names of all that lies in a folder, hidden or not.
std::vector<std::string> entries(const std::filesystem::path& folder);

struct Outcome {
  int code = -1;  ///< as a shell says it
  std::string out, err;
  std::size_t lines_of_errors() const;
};

class Running {
 public:
  /// `prepare` is done in the new process before the command starts; what it prints is kept unless it says otherwise.
  explicit Running(const std::vector<std::string>& arguments, const std::function<void()>& prepare = {});
  ~Running();
  Running(const Running&) = delete;
  Running& operator=(const Running&) = delete;

  void send(int signal) const;
  bool ended();
  Outcome wait();
  pid_t pid() const { return process_; }

 private:
  Folder kept_;
  pid_t process_ = -1;
  int status_ = 0;
  bool ended_ = false;
};

/// Starts the command and waits for it.
Outcome run_command(const std::vector<std::string>& arguments, const std::function<void()>& prepare = {});

/// Looks again and again until it is so; the test fails when it takes too long.
void wait_until(const std::function<bool()>& so, const char* what);

}  // namespace evenpull_test
