// SPDX-License-Identifier: MIT
// Serves one file as a calendar until it is ended by a signal, for feed_bench.sh.
// usage: feed_server FILE PORT
// Prints the link once it is listening. No limit per address: the load comes from one.
#include <csignal>
#include <exception>
#include <fstream>
#include <iostream>
#include <iterator>
#include <string>
#include <thread>

#include "feed/server.h"
#include "feed/site.h"

int main(int count, char** words) {
  using namespace trug::feed;
  if (count != 3) {
    std::cerr << "usage: feed_server FILE PORT\n";
    return 2;
  }
  sigset_t signals;
  sigemptyset(&signals);
  sigaddset(&signals, SIGINT);
  sigaddset(&signals, SIGTERM);
  pthread_sigmask(SIG_BLOCK, &signals, nullptr);
  std::ifstream file(words[1], std::ios::binary);
  Published published;
  published.calendar.assign(std::istreambuf_iterator<char>(file), {});
  Site site;
  if (!site.publish(published)) {
    std::cerr << "cannot read " << words[1] << ", or it is empty\n";
    return 3;
  }
  const std::string token = make_token({});  // known to all: this is a measurement
  site.set_links({{token_hash(token), LinkState::Active}});
  try {
    Server server({"127.0.0.1", std::stoi(words[2])},
                  [&site](const Request& request) { return site.answer(request); },
                  {.connections = 1024, .per_address = 0});
    const std::jthread thread([&](const std::stop_token& stop) { server.run(stop); });
    std::cout << "http://127.0.0.1:" << server.port() << '/' << token << "/calendar.ics"
              << std::endl;
    int received = 0;
    sigwait(&signals, &received);
  } catch (const std::exception& error) {
    std::cerr << error.what() << '\n';
    return 3;
  }
}
