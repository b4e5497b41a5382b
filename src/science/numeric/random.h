// Our own random numbers: the same seed gives the same stream on every machine.
//
// Generator: xoshiro256++ 1.0 (Blackman & Vigna 2019), seeded by splitmix64 (Steele, Lea & Flood 2014).
// The words of the stream are exact everywhere; shapes (JCGM 101:2008, clause 6.4) agree to the last digits
// of the platform's exp, log and sin.
#pragma once

#include <array>
#include <cstdint>

namespace fallaway::numeric {

class Random {
public:
    explicit Random(std::uint64_t seed);

    std::uint64_t next();
    double uniform();  // in the open interval (0, 1), 52 bits
    double normal();   // mean 0, sd 1; inversion of the normal distribution
    double rectangular(double low, double high);
    double triangular(double low, double high);  // symmetric; 6.4.5
    // Symmetric, flat over the middle share `top` (0..1) of the whole width; 6.4.4.
    double trapezoidal(double low, double high, double top);
    // Rectangular whose ends are known only to +/- slack, slack <= (high - low)/2; 6.4.3.
    double curvilinear_trapezoidal(double low, double high, double slack);
    double arcsine(double low, double high);  // U-shaped; 6.4.6
    double student_t(double dof);             // dof > 0; Bailey 1994, polar method; 6.4.9

private:
    std::array<std::uint64_t, 4> state_;
};

}  // namespace fallaway::numeric
