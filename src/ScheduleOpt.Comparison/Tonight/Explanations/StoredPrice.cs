using ScheduleOpt.Core.Charging;
using ScheduleOpt.Scheduling;

namespace ScheduleOpt.Comparison.Tonight.Explanations;

/// <summary>What a stored kWh costs in an interval: price * P / r. Terms of the bill are left out.</summary>
internal static class StoredPrice
{
    /// <summary>At the current that was planned; none where nothing is charged or stored. [currency/kWh]</summary>
    public static double? Planned(NightPlan plan, CarPlan car, int interval) =>
        car.Shares[interval] > 0 && car.Problem.Place[interval] == Place.Home ? Of(car, interval, car.CurrentA[interval], plan.EnergyPrice[interval]) : null;

    /// <summary>At full current beside what the cars take, where time for it is left; none where there is none. [currency/kWh]</summary>
    public static double? Left(NightPlan plan, CarPlan car, int interval)
    {
        var problem = car.Problem;
        if (problem.Place[interval] != Place.Home || car.Car.MostA[interval] <= 0 || car.Shares[interval] >= 1 - 1e-6)
        {
            return null;
        }

        var household = plan.Problem;
        var taken = plan.Cars.Sum(c => c.Problem.Place[interval] == Place.Home ? c.Replay.WallKwh[interval] : 0) / problem.Hours[interval];
        var kw = car.Car.VoltsAcrossPhases * car.Car.MostA[interval] / 1000;
        var solar = Math.Clamp(household.SolarKw[interval] - household.HouseKw[interval] - taken, 0, kw);
        var price = ((solar * household.ExportPrice[interval]) + ((kw - solar) * household.ImportPrice[interval])) / kw;
        return Of(car, interval, car.Car.MostA[interval], price);
    }

    private static double? Of(CarPlan car, int interval, double currentA, double price)
    {
        var kw = car.Car.VoltsAcrossPhases * currentA / 1000;
        var rate = ChargingModel.NetRateKw(kw, car.Problem.TemperatureC[interval], car.Problem.Constants);
        return rate > 0 ? price * kw / rate : null;
    }
}
