using CsCheck;

namespace ScheduleOpt.Core.Tests;

public sealed class ValueTypeTests
{
    [Fact]
    public void Distance_Mile_IsTheInternationalOne()
    {
        // NIST SP 811 (2008), B.8: 1 mi = 1.609 344 km.
        Assert.Equal(1.609344, Distance.FromMiles(1).Kilometres);
        Assert.Equal(40, Distance.FromMiles(40).Miles, 12);
    }

    [Theory]
    [InlineData(32, 0)]
    [InlineData(212, 100)]
    [InlineData(-40, -40)]
    [InlineData(98.6, 37)]
    public void Temperature_Fahrenheit_IsConverted(double fahrenheit, double celsius)
    {
        Assert.Equal(celsius, Temperature.FromFahrenheit(fahrenheit).Celsius, 12);
        Assert.Equal(fahrenheit, Temperature.FromCelsius(celsius).Fahrenheit, 12);
    }

    [Theory]
    [InlineData(-0.001)]
    [InlineData(1.001)]
    [InlineData(double.NaN)]
    public void StateOfCharge_OutsideZeroToOne_IsRefused(double fraction) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => StateOfCharge.FromFraction(fraction));

    [Fact]
    public void StateOfCharge_OfABattery_IsEnergy() =>
        Assert.Equal(24, StateOfCharge.FromFraction(0.4).Of(Energy.FromKilowattHours(60)).KilowattHours, 12);

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void Quantities_NotFinite_AreRefused(double value)
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Energy.FromKilowattHours(value));
        Assert.Throws<ArgumentOutOfRangeException>(() => Power.FromKilowatts(value));
        Assert.Throws<ArgumentOutOfRangeException>(() => Temperature.FromCelsius(value));
        Assert.Throws<ArgumentOutOfRangeException>(() => Distance.FromKilometres(value));
    }

    [Fact]
    public void Distance_Negative_IsRefused() => Assert.Throws<ArgumentOutOfRangeException>(() => Distance.FromMiles(-1));

    [Fact]
    public void Quantities_Defaults_AreZero()
    {
        Assert.Equal(Energy.Zero, default);
        Assert.Equal(Power.Zero, default);
        Assert.Equal(Distance.Zero, default);
        Assert.Equal(0, default(StateOfCharge).Fraction);
        Assert.Equal(0, default(Temperature).Celsius);
    }

    [Fact]
    public void Quantities_Compared_FollowTheirNumbers() =>
        Gen.Select(Gen.Double[0, 1], Gen.Double[0, 1]).Sample((a, b) =>
        {
            var expected = new[] { (a < b), (a > b), (a <= b), (a >= b) };
            var (e1, e2) = (Energy.FromKilowattHours(a), Energy.FromKilowattHours(b));
            Assert.Equal(expected, new[] { (e1 < e2), (e1 > e2), (e1 <= e2), (e1 >= e2) });
            Assert.Equal(a.CompareTo(b), e1.CompareTo(e2));
            var (p1, p2) = (Power.FromKilowatts(a), Power.FromKilowatts(b));
            Assert.Equal(expected, new[] { (p1 < p2), (p1 > p2), (p1 <= p2), (p1 >= p2) });
            Assert.Equal(a.CompareTo(b), p1.CompareTo(p2));
            var (s1, s2) = (StateOfCharge.FromFraction(a), StateOfCharge.FromFraction(b));
            Assert.Equal(expected, new[] { (s1 < s2), (s1 > s2), (s1 <= s2), (s1 >= s2) });
            Assert.Equal(a.CompareTo(b), s1.CompareTo(s2));
            var (d1, d2) = (Distance.FromKilometres(a), Distance.FromKilometres(b));
            Assert.Equal(expected, new[] { (d1 < d2), (d1 > d2), (d1 <= d2), (d1 >= d2) });
            Assert.Equal(a.CompareTo(b), d1.CompareTo(d2));
            var (t1, t2) = (Temperature.FromCelsius(a), Temperature.FromCelsius(b));
            Assert.Equal(expected, new[] { (t1 < t2), (t1 > t2), (t1 <= t2), (t1 >= t2) });
            Assert.Equal(a.CompareTo(b), t1.CompareTo(t2));
        });

    [Fact]
    public void Energy_Sums_AreThoseOfTheNumbers()
    {
        var (a, b) = (Energy.FromKilowattHours(10), Energy.FromKilowattHours(4));

        Assert.Equal((14.0, 6.0, 25.0), ((a + b).KilowattHours, (a - b).KilowattHours, (a * 2.5).KilowattHours));
        Assert.Throws<ArgumentOutOfRangeException>(() => a * double.NaN);
    }

    [Fact]
    public void Money_OfOneCurrency_IsExact()
    {
        Assert.Equal(new Money(0.3m, "USD"), new Money(0.1m, "USD") + new Money(0.2m, "USD"));
        Assert.Equal(new Money(-0.1m, "EUR"), new Money(0.1m, "EUR") - new Money(0.2m, "EUR"));
    }

    [Fact]
    public void Money_OfTwoCurrencies_IsRefused() =>
        Assert.Throws<InvalidOperationException>(() => new Money(1, "USD") + new Money(1, "CAD"));
}
