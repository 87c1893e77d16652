namespace ScheduleOpt.Service.Health;

/// <summary>One thing the service needs before it can answer.</summary>
public interface IReadinessCheck
{
    /// <summary>What is checked, as a field name.</summary>
    string Name { get; }

    /// <summary>Checks it now.</summary>
    /// <returns>What is there, in a word or two.</returns>
    /// <exception cref="NotReadyException">It is not there; the message says what is missing.</exception>
    string Check();
}
