using NodaTime;

namespace ScheduleOpt.Tariffs.Tests.Published;

// Ofgem, energy price cap, direct debit, GB average with VAT. July to September 2024: figures as quoted by Age UK
// (ageuk.org.uk/staffordshire, energy price cap). October to December 2024: "New energy price cap level for October to December 2024 starts today",
// 1 October 2024, ofgem.gov.uk. Typical use: 2,700 kWh of electricity and 11,500 kWh of gas (Ofgem, "Average gas and electricity usage").
// Prices are printed as rounded averages, so pounds and not pence are the tolerance.
public class OfgemPriceCapTests
{
    [Theory]
    [InlineData("0.2236", "0.6012", "0.0548", "0.3141", "1568")]
    [InlineData("0.2450", "0.6099", "0.0624", "0.3166", "1717")]
    public void Year_TypicalUse_AnnualBillToThePound(string unit, string standing, string gasUnit, string gasStanding, string published)
    {
        var total = Year(unit, standing, 2700) + Year(gasUnit, gasStanding, 11_500);

        Assert.Equal(published, decimal.Round(total, 0, MidpointRounding.AwayFromZero).ToString(System.Globalization.CultureInfo.InvariantCulture));
    }

    private static decimal Year(string unit, string standing, double kwh)
    {
        var plan = Plans.Of($$"""
            timeZone: Europe/London
            customerCharges:
              - { name: Standing charge, amount: {{standing}}, per: day }
            energyCharges:
              - { name: Unit price, pricePerKwh: {{unit}} }
            """);
        return Biller.Bill(plan, Plans.Even(Plans.Midnight("Europe/London", 2025, 1, 1), Duration.FromDays(1), 365, kwh)).Total;
    }
}
