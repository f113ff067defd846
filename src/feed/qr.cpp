// SPDX-License-Identifier: MIT
#include "feed/qr.h"

#include <fmt/format.h>
#include <qrencode.h>

#include <memory>

namespace trug::feed {
namespace {

constexpr int kQuiet = 4;
constexpr std::string_view kSvgStart = "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 ";
constexpr std::string_view kSvgBackground =
    " shape-rendering=\"crispEdges\"><path fill=\"#fff\" d=\"M0,0h";

struct FreeCode {
  void operator()(QRcode* code) const { QRcode_free(code); }
};

}  // namespace

bool QrCode::is_dark(int column, int row) const {
  if (column < 0 || row < 0 || column >= size || row >= size) return false;
  return dark[static_cast<std::size_t>(row * size + column)];
}

std::optional<QrCode> make_qr(std::string_view text) {
  const std::vector<unsigned char> bytes(text.begin(), text.end());
  const std::unique_ptr<QRcode, FreeCode> encoded(
      QRcode_encodeData(static_cast<int>(bytes.size()), bytes.data(), 0, QR_ECLEVEL_M));
  if (!encoded) return std::nullopt;
  QrCode code{encoded->width, {}};
  // The lowest bit of each byte is the colour (qrencode.h).
  for (int i = 0; i < code.size * code.size; ++i) code.dark.push_back(encoded->data[i] & 1);
  return code;
}

std::string qr_blocks(const QrCode& code) {
  std::string text;
  for (int row = -kQuiet; row < code.size + kQuiet; row += 2) {
    text += "\x1b[40;97m";
    for (int column = -kQuiet; column < code.size + kQuiet; ++column) {
      const bool upper_dark = code.is_dark(column, row);
      const bool lower_dark = code.is_dark(column, row + 1);
      if (upper_dark) {
        text += lower_dark ? " " : "▄";
      } else {
        text += lower_dark ? "▀" : "█";
      }
    }
    text += "\x1b[0m\n";
  }
  return text;
}

std::string qr_ascii(const QrCode& code) {
  std::string text;
  for (int row = -kQuiet; row < code.size + kQuiet; ++row) {
    for (int column = -kQuiet; column < code.size + kQuiet; ++column) {
      const bool dark = code.is_dark(column, row);
      if (column == -kQuiet || dark != code.is_dark(column - 1, row)) {
        text += dark ? "\x1b[40m" : "\x1b[107m";
      }
      text += "  ";
    }
    text += "\x1b[0m\n";
  }
  return text;
}

std::string qr_svg(const QrCode& code) {
  std::string path;
  for (int row = 0; row < code.size; ++row) {
    for (int column = 0; column < code.size; ++column) {
      int run = 0;
      while (code.is_dark(column + run, row)) ++run;
      if (run == 0) continue;
      path += fmt::format("M{},{}h{}v1h-{}z", column + kQuiet, row + kQuiet, run, run);
      column += run;
    }
  }
  const int side = code.size + 2 * kQuiet;
  return fmt::format("{0}{2} {2}\"{1}{2}v{2}h-{2}z\"/><path d=\"{3}\"/></svg>\n", kSvgStart,
                     kSvgBackground, side, path);
}

bool is_qr_svg(std::string_view text) {
  return text.starts_with(kSvgStart) && text.find(kSvgBackground) != std::string_view::npos;
}

}  // namespace trug::feed
