// SPDX-License-Identifier: MIT
// Every drawing is read back by zbarimg, a reader that shares no code with the writer.
#include "feed/qr.h"

#include <gtest/gtest.h>
#include <unistd.h>

#include <array>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <string>

#include "feed/site.h"

namespace trug::feed {
namespace {

const std::string kToken = "-yBFao-02f4jSG2St9wBJktwlbrfBClOc5i94gcsUXY";
const std::string kLink = "http://192.168.1.20:8080/" + kToken + "/calendar.ics";

class QrTest : public testing::Test {
 protected:
  QrTest() {
    std::string name = testing::TempDir() + "trug-qr-XXXXXX";
    if (mkdtemp(name.data()) != nullptr) folder_ = name;
  }
  ~QrTest() override {
    for (const char* name : {"code.svg", "code.png", "code.pgm"}) {
      unlink((folder_ + "/" + name).c_str());
    }
    rmdir(folder_.c_str());
  }
  void SetUp() override { ASSERT_FALSE(folder_.empty()); }

  void write(const std::string& name, const std::string& bytes) const {
    std::ofstream(folder_ + "/" + name, std::ios::binary) << bytes;
  }

  // What the command prints; the test fails where it fails, as it does where it is not installed.
  std::string output_of(const std::string& command) const {
    FILE* pipe = popen(("cd '" + folder_ + "' && " + command).c_str(), "r");
    EXPECT_NE(pipe, nullptr);
    if (pipe == nullptr) return {};
    std::string output;
    std::array<char, 4096> buffer{};
    while (const std::size_t got = fread(buffer.data(), 1, buffer.size(), pipe)) {
      output.append(buffer.data(), got);
    }
    EXPECT_EQ(pclose(pipe), 0) << command;
    return output;
  }

  std::string read_svg(const std::string& svg) const {
    write("code.svg", svg);
    output_of("rsvg-convert -w 400 -o code.png code.svg");
    return output_of("zbarimg -q --raw code.png 2>/dev/null");
  }

  // `rows` of pixels: 1 is light. Each becomes a square of 8 grey ones.
  std::string read_pixels(const std::vector<std::vector<int>>& rows) const {
    constexpr std::size_t kScale = 8;
    const std::size_t width = rows.front().size();
    std::string pgm = "P5 " + std::to_string(width * kScale) + " " +
                      std::to_string(rows.size() * kScale) + " 255\n";
    for (const auto& row : rows) {
      EXPECT_EQ(row.size(), width);
      std::string line;
      for (const int light : row) line.append(kScale, light == 1 ? '\xff' : '\0');
      for (std::size_t i = 0; i < kScale; ++i) pgm += line;
    }
    write("code.pgm", pgm);
    return output_of("zbarimg -q --raw code.pgm 2>/dev/null");
  }

 private:
  std::string folder_;
};

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  for (std::size_t from = 0; from < text.size();) {
    const std::size_t end = text.find('\n', from);
    lines.push_back(text.substr(from, end - from));
    from = end + 1;
  }
  return lines;
}

bool take(std::string& text, const std::string& front) {
  if (!text.starts_with(front)) return false;
  text.erase(0, front.size());
  return true;
}

// A terminal for the few things the drawings use: 40 and 107 set the background, 97 the
// foreground, 0 ends the line.
std::vector<std::vector<int>> seen_blocks(const std::string& text) {
  std::vector<std::vector<int>> rows;
  for (std::string line : lines_of(text)) {
    EXPECT_TRUE(take(line, "\x1b[40;97m"));
    std::vector<int> upper;
    std::vector<int> lower;
    while (!line.starts_with("\x1b")) {
      const bool full = take(line, "█");
      const bool top = !full && take(line, "▀");
      const bool bottom = !full && !top && take(line, "▄");
      if (!full && !top && !bottom && !take(line, " ")) {
        ADD_FAILURE() << "no block: " << line;
        return rows;
      }
      upper.push_back(full || top ? 1 : 0);
      lower.push_back(full || bottom ? 1 : 0);
    }
    EXPECT_EQ(line, "\x1b[0m");
    rows.push_back(upper);
    rows.push_back(lower);
  }
  return rows;
}

std::vector<std::vector<int>> seen_ascii(const std::string& text) {
  std::vector<std::vector<int>> rows;
  for (std::string line : lines_of(text)) {
    std::vector<int> row;
    int light = -1;
    while (line != "\x1b[0m") {
      if (take(line, "\x1b[107m")) light = 1;
      if (take(line, "\x1b[40m")) light = 0;
      if (light < 0 || !take(line, "  ")) {
        ADD_FAILURE() << "no module: " << line;
        return rows;
      }
      row.push_back(light);
    }
    rows.push_back(row);
  }
  return rows;
}

TEST_F(QrTest, ALinkWithATokenIs37ModulesWide) {
  const auto code = make_qr(kLink);
  ASSERT_TRUE(code);
  EXPECT_EQ(code->size, 37);  // version 5: 17 + 4 * 5 (ISO/IEC 18004)
  const auto blocks = seen_blocks(qr_blocks(*code));
  EXPECT_EQ(blocks.size(), 46U);  // 37 + 2 * 4, and one to make it even
  EXPECT_EQ(blocks.front().size(), 45U);
  EXPECT_EQ(seen_ascii(qr_ascii(*code)).size(), 45U);
}

TEST_F(QrTest, TheQuietZoneIsFourModulesOnEverySide) {
  const auto code = make_qr(kLink);
  ASSERT_TRUE(code);
  auto blocks = seen_blocks(qr_blocks(*code));
  EXPECT_EQ(blocks.back(), std::vector<int>(45, 1));
  blocks.pop_back();
  EXPECT_EQ(blocks, seen_ascii(qr_ascii(*code)));
  for (std::size_t row = 0; row < 45; ++row) {
    for (std::size_t column = 0; column < 45; ++column) {
      const bool inside = row >= 4 && row < 41 && column >= 4 && column < 41;
      if (!inside) {
        EXPECT_EQ(blocks[row][column], 1) << row << ", " << column;
      }
    }
  }
  // The corner of a finder pattern is dark.
  EXPECT_EQ(blocks[4][4], 0);
  EXPECT_EQ(blocks[4][40], 0);
  EXPECT_EQ(blocks[40][4], 0);
}

TEST_F(QrTest, EveryDrawingIsReadBackToTheLetter) {
  for (const std::string& text :
       std::vector<std::string>{kLink, "https://example.org/garden/" + kToken + "/calendar.ics",
                                "webcal://example.org/" + kToken + "/calendar.ics", "a",
                                "https://example.org/" + std::string(200, 'q') + "/Calendar.ics"}) {
    SCOPED_TRACE(text);
    const auto code = make_qr(text);
    ASSERT_TRUE(code);
    EXPECT_EQ(read_svg(qr_svg(*code)), text + "\n");
    EXPECT_EQ(read_pixels(seen_blocks(qr_blocks(*code))), text + "\n");
    EXPECT_EQ(read_pixels(seen_ascii(qr_ascii(*code))), text + "\n");
  }
}

TEST_F(QrTest, TheSiteDrawsTheAddressThatWasAsked) {
  Site site;
  site.set_links({{token_hash(kToken), LinkState::Active}});
  site.publish({"BEGIN:VCALENDAR\r\n", "", "", "https://example.org/garden/", {}});
  const std::pair<std::string, std::string> table[] = {
      {"qr.svg", "https://example.org/garden/" + kToken + "/calendar.ics\n"},
      {"qr-webcal.svg", "webcal://example.org/garden/" + kToken + "/calendar.ics\n"}};
  for (const auto& [name, link] : table) {
    const Response response = site.answer({"GET", "/" + kToken + "/" + name, "", ""});
    EXPECT_EQ(response.status, 200);
    ASSERT_TRUE(response.body);
    EXPECT_EQ(read_svg(*response.body), link);
  }
}

TEST_F(QrTest, SvgIsWellFormedAndSmall) {
  const auto code = make_qr(kLink);
  ASSERT_TRUE(code);
  const std::string svg = qr_svg(*code);
  EXPECT_LT(svg.size(), 6000U);
  write("code.svg", svg);
  output_of("xmllint --noout code.svg");
}

// ISO/IEC 18004, table of capacities: version 40, level M, byte mode holds 2,331 bytes.
TEST(Qr, TextsThatDoNotFitAreRefused) {
  EXPECT_FALSE(make_qr(""));
  const auto largest = make_qr(std::string(2331, 'x'));
  ASSERT_TRUE(largest);
  EXPECT_EQ(largest->size, 177);
  EXPECT_FALSE(make_qr(std::string(2332, 'x')));
}

}  // namespace
}  // namespace trug::feed
