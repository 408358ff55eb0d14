#include "analysis/statistics/distributions.h"

#include <boost/math/distributions/fisher_f.hpp>
#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/students_t.hpp>

namespace footing {

double student_t_quantile(double p, double degrees_of_freedom) {
    return boost::math::quantile(boost::math::students_t(degrees_of_freedom), p);
}

double f_quantile(double p, double degrees_of_freedom_1, double degrees_of_freedom_2) {
    return boost::math::quantile(boost::math::fisher_f(degrees_of_freedom_1, degrees_of_freedom_2), p);
}

double normal_quantile(double p) {
    return boost::math::quantile(boost::math::normal(), p);
}

double student_t_probability(double x, double degrees_of_freedom) {
    return boost::math::cdf(boost::math::students_t(degrees_of_freedom), x);
}

}  // namespace footing
