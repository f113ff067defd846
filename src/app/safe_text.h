// SPDX-License-Identifier: MIT
// Text for people, without what would act on their terminal: names of files and words of plans may
// hold anything.
#pragma once

#include <ios>
#include <ostream>
#include <streambuf>
#include <string>

namespace trug::app {

// Passes lines on, made printable(), and what is left of a line when it is flushed.
class SafeText : public std::streambuf {
 public:
  // `target` must outlive it.
  explicit SafeText(std::ostream& target, bool colours = false)
      : target_(target), colours_(colours) {}
  ~SafeText() override;

 protected:
  int_type overflow(int_type c) override;
  std::streamsize xsputn(const char* text, std::streamsize count) override;
  int sync() override;

 private:
  void pass_on(std::size_t count);

  std::ostream& target_;
  bool colours_;
  std::string line_;
};

}  // namespace trug::app
