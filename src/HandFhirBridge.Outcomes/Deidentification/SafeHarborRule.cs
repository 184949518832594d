namespace HandFhirBridge.Outcomes.Deidentification;

/// <summary>What is removed, each by its paragraph of 45 CFR 164.514(b)(2)(i). The name begins with the paragraph's letter.</summary>
public enum SafeHarborRule
{
    /// <summary>(A) Names.</summary>
    AName,

    /// <summary>(B) Geographic subdivisions smaller than a state. The exception for three digits of a ZIP code is not used.</summary>
    BPlace,

    /// <summary>(C) Elements of dates except the year; ages over 89, and years that tell of them.</summary>
    CDate,

    /// <summary>(D) Telephone numbers.</summary>
    DTelephone,

    /// <summary>(E) Fax numbers.</summary>
    EFax,

    /// <summary>(F) Electronic mail addresses.</summary>
    FMail,

    /// <summary>(G) Social security numbers.</summary>
    GSocialSecurity,

    /// <summary>(H) Medical record numbers.</summary>
    HMedicalRecord,

    /// <summary>(I) Health plan beneficiary numbers.</summary>
    IHealthPlan,

    /// <summary>(J) Account numbers.</summary>
    JAccount,

    /// <summary>(K) Certificate and license numbers.</summary>
    KLicense,

    /// <summary>(L) Vehicle identifiers and serial numbers, license plates.</summary>
    LVehicle,

    /// <summary>(M) Device identifiers and serial numbers.</summary>
    MDevice,

    /// <summary>(N) Web addresses.</summary>
    NWebAddress,

    /// <summary>(O) Internet Protocol addresses.</summary>
    OInternetAddress,

    /// <summary>(P) Biometric identifiers.</summary>
    PBiometric,

    /// <summary>(Q) Full-face photographs and comparable images.</summary>
    QImage,

    /// <summary>(R) Any other unique identifying number, characteristic or code; here also free text and whatever is not known to be harmless, as it can hold any of the others.</summary>
    ROther,
}
