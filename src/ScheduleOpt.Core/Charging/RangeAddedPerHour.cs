using ScheduleOpt.Core.Homes;

namespace ScheduleOpt.Core.Charging;

/// <summary>Range added by an hour of charging, rated and real: always said which.</summary>
/// <param name="NetKw">What the battery gains. [kW]</param>
/// <param name="Rated">By the consumption at 20 degC: r / c_ref. [km per h]</param>
/// <param name="Real">By the consumption at the temperature of charging: r / (c_ref * f(T)). [km per h]</param>
public sealed record RangeAddedPerHour(double NetKw, Distance Rated, Distance Real)
{
    /// <summary>At one temperature.</summary>
    /// <example>240 V, 32 A, 0.25 kWh per mile at 21 degC: 6.92 kW, 27.7 mi rated.</example>
    public static RangeAddedPerHour Of(Vehicle vehicle, Supply supply, double temperatureC) => Mean(vehicle, supply, [temperatureC]);

    /// <summary>The mean over some hours, one temperature each; zeroes where an hour gives nothing.</summary>
    /// <param name="vehicle">The car.</param>
    /// <param name="supply">The supply.</param>
    /// <param name="temperaturesC">At least one. [degC]</param>
    /// <exception cref="ArgumentException">No temperature.</exception>
    public static RangeAddedPerHour Mean(Vehicle vehicle, Supply supply, IReadOnlyCollection<double> temperaturesC)
    {
        ArgumentNullException.ThrowIfNull(vehicle);
        ArgumentNullException.ThrowIfNull(supply);
        ArgumentNullException.ThrowIfNull(temperaturesC);
        if (temperaturesC.Count == 0)
        {
            throw new ArgumentException("A mean needs at least one temperature.", nameof(temperaturesC));
        }

        var wallKw = supply.ChargingPower(vehicle).Kilowatts;
        var (net, rated, real) = (0.0, 0.0, 0.0);
        foreach (var celsius in temperaturesC)
        {
            var gain = ChargingModel.NetRateKw(wallKw, celsius, vehicle.Constants);
            var distance = gain / vehicle.Consumption.ReferenceKwhPerKm;
            net += gain;
            rated += distance;
            real += distance / vehicle.Consumption.Factor(celsius);
        }

        var n = temperaturesC.Count;
        return new RangeAddedPerHour(net / n, Distance.FromKilometres(rated / n), Distance.FromKilometres(real / n));
    }
}
