// SPDX-License-Identifier: MIT
#include "app/guarded.h"

#include <exception>
#include <new>
#include <system_error>

#include "app/inputs.h"

namespace trug::app {

int guarded(const Environment& environment, const std::function<int()>& work) {
  try {
    return work();
  } catch (const BadOutput& error) {
    environment.err << "error: " << error.what() << "\n  hint: name another file\n";
    return kBadInput;
  } catch (const std::system_error& error) {  // the world refuses
    environment.err << "error: " << error.what() << "\n";
    return kRefused;
  } catch (const std::bad_alloc&) {
    environment.err << "error: there is not enough memory\n";
    return kRefused;
  } catch (const std::exception& error) {
    environment.err << "error: this is a defect of trug, please report it with your plan: "
                    << error.what() << "\n";
    return kOurBug;
  }
}

}  // namespace trug::app
