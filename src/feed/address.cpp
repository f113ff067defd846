// SPDX-License-Identifier: MIT
#include "feed/address.h"

#include <arpa/inet.h>
#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cstddef>
#include <system_error>

namespace trug::feed {
namespace {

bool is_number_address(const std::string& host) {
  in6_addr address{};
  return inet_pton(AF_INET, host.c_str(), &address) == 1 ||
         inet_pton(AF_INET6, host.c_str(), &address) == 1;
}

}  // namespace

std::optional<Address> parse_address(std::string_view text) {
  const std::size_t colon = text.rfind(':');
  if (colon == std::string_view::npos) return std::nullopt;
  const std::string_view port = text.substr(colon + 1);
  std::string_view host = text.substr(0, colon);
  const bool bracketed = host.starts_with('[') && host.ends_with(']');
  if (bracketed) host = host.substr(1, host.size() - 2);
  Address address{host == "localhost" ? "127.0.0.1" : std::string(host), 0};
  const auto [end, error] = std::from_chars(port.data(), port.data() + port.size(), address.port);
  const bool is_port = error == std::errc{} && end == port.data() + port.size() &&
                       address.port >= 0 && address.port <= 65535;
  const bool is_six = address.host.find(':') != std::string::npos;
  if (!is_port || is_six != bracketed || !is_number_address(address.host)) return std::nullopt;
  return address;
}

std::string to_string(const Address& address) {
  const bool is_six = address.host.find(':') != std::string::npos;
  return is_six ? fmt::format("[{}]:{}", address.host, address.port)
                : fmt::format("{}:{}", address.host, address.port);
}

bool is_loopback(const Address& address) {
  return address.host.starts_with("127.") || address.host == "::1";
}

bool is_only_here(std::string_view base_url) {
  const std::size_t scheme_end = base_url.find("://");
  if (scheme_end != std::string_view::npos) base_url.remove_prefix(scheme_end + 3);
  std::string host(base_url.substr(0, base_url.find('/')));
  const bool has_port = host.rfind(':') != std::string::npos && !host.ends_with(']');
  const auto address = parse_address(has_port ? host : host + ":80");
  return address && is_loopback(*address);
}

bool is_base_url(std::string_view text) {
  const std::size_t host = text.starts_with("https://") ? 8 : 7;
  if (!text.starts_with("https://") && !text.starts_with("http://")) return false;
  const auto allowed = [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
           std::string_view("-._~:/[]%").find(c) != std::string_view::npos;
  };
  return text.size() > host && text[host] != '/' && std::ranges::all_of(text, allowed);
}

}  // namespace trug::feed
