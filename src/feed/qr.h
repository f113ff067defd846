// SPDX-License-Identifier: MIT
// A link as a QR code: for a screen, and for paper by the shed door.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace trug::feed {

// A square of modules without its quiet zone.
struct QrCode {
  int size = 0;            // modules a side
  std::vector<bool> dark;  // row by row
  // Outside the square is light: the quiet zone.
  bool is_dark(int column, int row) const;
};

// Byte mode, because tokens are case-sensitive; error correction level M. Nothing where the text is
// empty or too long (over 2,331 bytes; ISO/IEC 18004, version 40-M).
std::optional<QrCode> make_qr(std::string_view text);

// All three have a quiet zone of 4 modules, as ISO/IEC 18004 asks.
//
// Two rows of modules a line, in half blocks. The colours are set to white on black, so that it
// scans on dark and on light terminals alike.
std::string qr_blocks(const QrCode& code);
// For terminals without UTF-8: a module is two blanks with their background colour set.
std::string qr_ascii(const QrCode& code);
// A drawing of one path, one run of dark modules after the other; one module is one unit.
std::string qr_svg(const QrCode& code);
// Whether a file is such a drawing: it may be replaced by another.
bool is_qr_svg(std::string_view text);

}  // namespace trug::feed
