using ScheduleOpt.Core.Charging;

namespace ScheduleOpt.Comparison.SetUps;

/// <summary>A public charging place as a household uses it: its price, and how fast it charges.</summary>
/// <param name="Price">What it asks for.</param>
/// <param name="PowerKw">Mean power of a session at the public meter; above zero. [kW]</param>
public sealed record PublicPlace(PublicPrice Price, double PowerKw)
{
    /// <summary>A year in which everything is charged there, in full sessions and a last one for the rest.</summary>
    /// <param name="vehicle">The car: a session fetches what lies between its minimum and its ordinary limit.</param>
    /// <param name="yearMeterKwh">Energy of the year at the public meter; zero or more. [kWh]</param>
    public PublicYear Year(Vehicle vehicle, double yearMeterKwh) => PublicYear.Of(Price, yearMeterKwh, PublicYear.SessionKwh(vehicle), PowerKw);

    /// <summary>What a kWh costs in a full session. [currency/kWh]</summary>
    public decimal PricePerKwh(Vehicle vehicle) => Price.Session(PublicYear.SessionKwh(vehicle), PowerKw).CostPerKwh ?? Price.PerKwh;
}
