using NodaTime;
using ScheduleOpt.Core.Weather;

namespace ScheduleOpt.Scheduling;

/// <summary>Reads a forecast at instants that only grow, without a division for each. [degC]</summary>
internal struct TemperatureCursor(TemperatureForecast forecast)
{
    private int index;
    private Instant next = forecast.Start + forecast.Step;

    /// <summary>The temperature at an instant that is not before the one asked for last. [degC]</summary>
    public double At(Instant instant)
    {
        if (instant >= next && index < forecast.Celsius.Count - 1)
        {
            var steps = Math.Min((long)((instant - forecast.Start) / forecast.Step), forecast.Celsius.Count - 1);
            index = (int)steps;
            next = forecast.Start + (forecast.Step * (index + 1));
        }

        return forecast.Celsius[index];
    }
}
