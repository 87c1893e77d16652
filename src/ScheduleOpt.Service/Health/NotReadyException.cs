namespace ScheduleOpt.Service.Health;

/// <summary>Something the service needs is not there; the message says what.</summary>
public sealed class NotReadyException : Exception
{
    /// <summary>Makes one without a reason.</summary>
    public NotReadyException()
    {
    }

    /// <summary>Makes one with its reason.</summary>
    public NotReadyException(string message)
        : base(message)
    {
    }

    /// <summary>Makes one with its reason and cause.</summary>
    public NotReadyException(string message, Exception innerException)
        : base(message, innerException)
    {
    }
}
