using ScheduleOpt.Core.Weather;
using ScheduleOpt.Interchange.HouseLoads;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>Reads the <c>houseLoad</c> of a request.</summary>
internal static class HouseLoadReader
{
    /// <summary>Reads the use of the house without the car, for each hour of a common year in standard time. [kWh at the meter]</summary>
    public static double[]? Read(JsonField? field, DocumentClock clock, List<string> warnings)
    {
        if (field?.Members("annualKwh", "monthlyKwh", "hourlyKwh", "meterFile", "source") is not { } load
            || load.ExactlyOne("annualKwh", "monthlyKwh", "hourlyKwh", "meterFile") is not { } form)
        {
            return null;
        }

        if (load.Optional("source") is { } source && source.Text(HouseEvidence.MostSource) is not null && !load.Has("hourlyKwh"))
        {
            source.Fault("Says where hourlyKwh comes from: without it leave this out.");
        }

        if (load.Has("meterFile"))
        {
            return MeterFileReader.HouseLoad(form, clock, warnings);
        }

        if (load.Has("hourlyKwh"))
        {
            return form.Numbers(WeatherYear.Hours, WeatherYear.Hours, new(0, 100, "kWh"));
        }

        if (load.Has("monthlyKwh"))
        {
            return form.Numbers(12, 12, new(0, 50_000, "kWh")) is { } months ? HouseLoadShape.ScaleMonths(months) : null;
        }

        return form.Number(new(0, 200_000, "kWh")) is { } annual ? HouseLoadShape.Scale(annual) : null;
    }
}
