// Strong unit types. Inside, everything is SI; a bench unit appears only in the name of a factory or an
// accessor: Length::mm(1.6).inch(). Text in and out is in quantity_text.h.
#pragma once

#include <cmath>
#include <compare>
#include <numbers>

#include "science/base/dimension.h"

namespace fallaway {

// The arithmetic that every quantity has: sums of a kind, multiples, and the ratio of two of a kind.
template <class Self, Dimension kDimension>
class QuantityOf {
public:
    static constexpr Dimension dimension = kDimension;

    constexpr QuantityOf() = default;
    static constexpr Self si(double value) {
        Self q;
        q.si_ = value;
        return q;
    }
    constexpr double si() const { return si_; }

    friend constexpr auto operator<=>(const Self& a, const Self& b) { return a.si_ <=> b.si_; }
    friend constexpr bool operator==(const Self& a, const Self& b) { return a.si_ == b.si_; }
    friend constexpr Self operator+(Self a, Self b) { return si(a.si_ + b.si_); }
    friend constexpr Self operator-(Self a, Self b) { return si(a.si_ - b.si_); }
    friend constexpr Self operator-(Self a) { return si(-a.si_); }
    friend constexpr Self operator*(Self a, double k) { return si(a.si_ * k); }
    friend constexpr Self operator*(double k, Self a) { return si(a.si_ * k); }
    friend constexpr Self operator/(Self a, double k) { return si(a.si_ / k); }
    friend constexpr double operator/(Self a, Self b) { return a.si_ / b.si_; }

protected:
    double si_ = 0;
};

class Length : public QuantityOf<Length, Dimension::length> {
public:
    static constexpr Length m(double v) { return si(v); }
    static constexpr Length mm(double v) { return si(v * 1e-3); }
    static constexpr Length um(double v) { return si(v * 1e-6); }
    static constexpr Length inch(double v) { return si(v * 25.4e-3); }  // exact, 1959 agreement
    constexpr double m() const { return si_; }
    constexpr double mm() const { return si_ * 1e3; }
    constexpr double um() const { return si_ * 1e6; }
    constexpr double inch() const { return si_ / 25.4e-3; }
};

class Frequency : public QuantityOf<Frequency, Dimension::frequency> {
public:
    static constexpr Frequency hz(double v) { return si(v); }
    constexpr double hz() const { return si_; }
};

class Interval : public QuantityOf<Interval, Dimension::interval> {
public:
    static constexpr Interval cents(double v) { return si(v); }
    static constexpr Interval semitones(double v) { return si(v * 100); }
    static Interval between(Frequency upper, Frequency lower) { return si(1200 * std::log2(upper / lower)); }
    constexpr double cents() const { return si_; }
    double frequency_ratio() const { return std::exp2(si_ / 1200); }
};

class Force : public QuantityOf<Force, Dimension::force> {
public:
    static constexpr Force newton(double v) { return si(v); }
    static constexpr Force lbf(double v) { return si(v * 4.4482216152605); }  // exact
    static constexpr Force kgf(double v) { return si(v * 9.80665); }          // exact
    constexpr double newton() const { return si_; }
    constexpr double lbf() const { return si_ / 4.4482216152605; }
    constexpr double kgf() const { return si_ / 9.80665; }
};

class Mass : public QuantityOf<Mass, Dimension::mass> {
public:
    static constexpr Mass kg(double v) { return si(v); }
    static constexpr Mass gram(double v) { return si(v * 1e-3); }
    static constexpr Mass lb(double v) { return si(v * 0.45359237); }  // exact
    constexpr double kg() const { return si_; }
    constexpr double gram() const { return si_ * 1e3; }
    constexpr double lb() const { return si_ / 0.45359237; }
};

class LinearDensity : public QuantityOf<LinearDensity, Dimension::linear_density> {
public:
    static constexpr LinearDensity kg_per_m(double v) { return si(v); }
    static constexpr LinearDensity g_per_m(double v) { return si(v * 1e-3); }
    constexpr double kg_per_m() const { return si_; }
    constexpr double g_per_m() const { return si_ * 1e3; }
};

class Density : public QuantityOf<Density, Dimension::density> {
public:
    static constexpr Density kg_per_m3(double v) { return si(v); }
    constexpr double kg_per_m3() const { return si_; }
};

class Pressure : public QuantityOf<Pressure, Dimension::pressure> {
public:
    static constexpr Pressure pascal(double v) { return si(v); }
    static constexpr Pressure mpa(double v) { return si(v * 1e6); }
    static constexpr Pressure gpa(double v) { return si(v * 1e9); }
    constexpr double pascal() const { return si_; }
    constexpr double mpa() const { return si_ * 1e-6; }
    constexpr double gpa() const { return si_ * 1e-9; }
};

class Resistance : public QuantityOf<Resistance, Dimension::resistance> {
public:
    static constexpr Resistance ohm(double v) { return si(v); }
    static constexpr Resistance kohm(double v) { return si(v * 1e3); }
    constexpr double ohm() const { return si_; }
    constexpr double kohm() const { return si_ * 1e-3; }
};

class ResistancePerLength : public QuantityOf<ResistancePerLength, Dimension::resistance_per_length> {
public:
    static constexpr ResistancePerLength ohm_per_m(double v) { return si(v); }
    constexpr double ohm_per_m() const { return si_; }
};

class Capacitance : public QuantityOf<Capacitance, Dimension::capacitance> {
public:
    static constexpr Capacitance farad(double v) { return si(v); }
    static constexpr Capacitance nf(double v) { return si(v * 1e-9); }
    static constexpr Capacitance pf(double v) { return si(v * 1e-12); }
    constexpr double farad() const { return si_; }
    constexpr double nf() const { return si_ * 1e9; }
    constexpr double pf() const { return si_ * 1e12; }
};

class Inductance : public QuantityOf<Inductance, Dimension::inductance> {
public:
    static constexpr Inductance henry(double v) { return si(v); }
    constexpr double henry() const { return si_; }
};

class TemperatureDifference : public QuantityOf<TemperatureDifference, Dimension::temperature_difference> {
public:
    static constexpr TemperatureDifference kelvin(double v) { return si(v); }
    constexpr double kelvin() const { return si_; }
};

// Absolute: two temperatures are subtracted, never added.
class Temperature {
public:
    static constexpr Dimension dimension = Dimension::temperature;
    static constexpr Temperature si(double kelvin) { return Temperature(kelvin); }
    static constexpr Temperature kelvin(double v) { return Temperature(v); }
    static constexpr Temperature celsius(double v) { return Temperature(v + 273.15); }
    constexpr Temperature() = default;
    constexpr double si() const { return kelvin_; }
    constexpr double kelvin() const { return kelvin_; }
    constexpr double celsius() const { return kelvin_ - 273.15; }

    friend constexpr auto operator<=>(const Temperature&, const Temperature&) = default;
    friend constexpr TemperatureDifference operator-(Temperature a, Temperature b) {
        return TemperatureDifference::kelvin(a.kelvin_ - b.kelvin_);
    }
    friend constexpr Temperature operator+(Temperature a, TemperatureDifference d) {
        return Temperature(a.kelvin_ + d.kelvin());
    }

private:
    explicit constexpr Temperature(double kelvin) : kelvin_(kelvin) {}
    double kelvin_ = 293.15;
};

class RelativeHumidity : public QuantityOf<RelativeHumidity, Dimension::relative_humidity> {
public:
    static constexpr RelativeHumidity percent(double v) { return si(v * 1e-2); }
    constexpr double percent() const { return si_ * 1e2; }
    constexpr double fraction() const { return si_; }
};

class Moisture : public QuantityOf<Moisture, Dimension::moisture> {
public:
    static constexpr Moisture percent(double v) { return si(v * 1e-2); }
    constexpr double percent() const { return si_ * 1e2; }
};

class Angle : public QuantityOf<Angle, Dimension::angle> {
public:
    static constexpr Angle rad(double v) { return si(v); }
    static constexpr Angle degrees(double v) { return si(v * std::numbers::pi / 180); }
    static constexpr Angle turns(double v) { return si(v * 2 * std::numbers::pi); }
    constexpr double rad() const { return si_; }
    constexpr double degrees() const { return si_ * 180 / std::numbers::pi; }
    constexpr double turns() const { return si_ / (2 * std::numbers::pi); }
};

class Duration : public QuantityOf<Duration, Dimension::time> {
public:
    static constexpr Duration s(double v) { return si(v); }
    static constexpr Duration minutes(double v) { return si(v * 60); }
    static constexpr Duration hours(double v) { return si(v * 3600); }
    constexpr double s() const { return si_; }
    constexpr double minutes() const { return si_ / 60; }
    constexpr double hours() const { return si_ / 3600; }
};

class Ratio : public QuantityOf<Ratio, Dimension::ratio> {
public:
    static constexpr Ratio of(double v) { return si(v); }
    static constexpr Ratio percent(double v) { return si(v * 1e-2); }
    constexpr double value() const { return si_; }
    constexpr double percent() const { return si_ * 1e2; }
};

class Level : public QuantityOf<Level, Dimension::level> {
public:
    static constexpr Level db(double v) { return si(v); }
    constexpr double db() const { return si_; }
};

}  // namespace fallaway
