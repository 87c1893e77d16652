using ScheduleOpt.Comparison.Behaviours;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>Reads <c>byNight</c>: how far least cost planned night by night looks ahead, and what it does not know.</summary>
internal static class ByNightReader
{
    private static readonly Limits Days = new(1, 28, "days") { Whole = true };

    /// <summary>Reads it; what is not given, or faulty, has its default.</summary>
    public static LeastCostByNight Read(JsonField? field)
    {
        var (night, errors) = (new LeastCostByNight(), new ForecastError());
        if (field?.Members(
            "horizonDays", "seed", "temperatureErrorK", "temperatureErrorGrowthKPerDay", "temperatureBiasK", "tripEnergyFactor", "priceDays", "houseDays") is not { } given)
        {
            return night;
        }

        return new LeastCostByNight(new ForecastError
        {
            Seed = (int)given.Number("seed", new(0, 1_000_000) { Whole = true }, errors.Seed),
            FirstDayK = given.Number("temperatureErrorK", new(0, 20, "K"), errors.FirstDayK),
            GrowthKPerDay = given.Number("temperatureErrorGrowthKPerDay", new(0, 10, "K a day"), errors.GrowthKPerDay),
            BiasK = given.Number("temperatureBiasK", new(-60, 60, "K"), errors.BiasK),
            TripEnergyFactor = given.Number("tripEnergyFactor", new(0, 10) { LowExcluded = true }, errors.TripEnergyFactor),
            PriceDays = (int)given.Number("priceDays", Days, errors.PriceDays),
            HouseDays = (int)given.Number("houseDays", Days, errors.HouseDays),
        })
        {
            HorizonDays = (int)given.Number(
                "horizonDays", new(LeastCostByNight.LeastHorizonDays, LeastCostByNight.MostHorizonDays, "days") { Whole = true }, night.HorizonDays),
        };
    }
}
