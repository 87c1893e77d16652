using NodaTime.Text;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Interchange.Answers;

/// <summary>Writes the list of rate plans.</summary>
public static class RatePlanListWriter
{
    /// <summary>Writes <c>{"ratePlans":[...]}</c> as UTF-8.</summary>
    public static byte[] Write(IEnumerable<RatePlan> plans) => AnswerJson.Write(json =>
    {
        json.WriteStartArray("ratePlans");
        foreach (var plan in plans)
        {
            json.WriteStartObject();
            json.WriteString("id", plan.Id);
            json.WriteString("name", plan.Name);
            json.WriteString("utility", plan.Utility);
            json.WriteString("description", plan.Description);
            json.WriteString("source", plan.Source);
            json.WriteString("currency", plan.Currency);
            json.WriteString("timeZone", plan.Zone.Id);
            json.WriteString("effectiveFrom", LocalDatePattern.Iso.Format(plan.EffectiveFrom));
            if (plan.EffectiveUntil is { } until)
            {
                json.WriteString("effectiveUntil", LocalDatePattern.Iso.Format(until));
            }

            json.WriteEndObject();
        }

        json.WriteEndArray();
    });
}
