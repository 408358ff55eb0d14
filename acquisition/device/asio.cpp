// The one place where Boost.Asio's own code is compiled (BOOST_ASIO_SEPARATE_COMPILATION halves the time of the rest).
#include <utility>

#include <boost/asio/impl/src.hpp>
